// The Firing screen: choose a firing, or work on one.
import type { ScreenProps } from "../../shell/routes";
import { asked } from "../../shell/navigation";
import { ChooseFiring } from "./choose";
import { BenchView } from "./bench_view";

export default function Firing({ rest }: ScreenProps) {
  const name = rest[0];
  if (name === undefined) return <ChooseFiring />;
  if (name !== "new") return <BenchView key={name} name={name} begin={null} />;
  const pieces = asked.value.getAll("piece").filter(Boolean);
  return <BenchView key={`new ${pieces.join(" ")}`} name={null} begin={pieces} />;
}
