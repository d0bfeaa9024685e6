import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";

// The sign-in page is built apart: whoever is not signed in gets these files and no others.
export default defineConfig({
  root: fileURLToPath(new URL(".", import.meta.url)),
  base: "/sign-in/",
  publicDir: false,
  build: {
    outDir: "../dist/sign-in",
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
});
