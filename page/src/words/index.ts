export { t, counted, language, type Language, type Word, type PlainWord } from "./catalogue";
export { number, day, moment, momentInFull, clock, sameDay, bytes, asPeopleWrite, asProgramsWrite, asTold, unbroken, isQuantity, leadOf } from "./numbers";
export { units, shade, choose, type Units, type Shade } from "./choice";
export { isDay } from "./days";
