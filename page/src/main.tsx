import { render } from "preact";
import "./look/look.css";
import { App } from "./shell/app";
import { begin } from "./shell/begin";

const root = document.getElementById("page");
if (root) void begin().then(() => render(<App />, root));
