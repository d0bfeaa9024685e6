import { defineConfig, type Plugin } from "vite";
import { folder, makeCatalogue } from "./build/words.mjs";

const server = process.env["HEATWORK_SERVER"] ?? "http://127.0.0.1:8441";

/** Makes the catalogue anew whenever words change while the page is being worked on. */
function words(): Plugin {
  return {
    name: "words-of-the-page",
    buildStart: () => void makeCatalogue(),
    configureServer(dev) {
      dev.watcher.add(folder);
      dev.watcher.on("change", (file) => {
        if (!file.endsWith(".toml")) return;
        try {
          makeCatalogue();
        } catch (error) {
          dev.config.logger.error(error instanceof Error ? error.message : String(error));
        }
      });
    },
  };
}

export default defineConfig({
  plugins: [words()],
  build: {
    outDir: "dist",
    emptyOutDir: true,
    target: "es2022",
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    cssCodeSplit: false,
    sourcemap: false,
  },
  server: {
    port: Number(process.env["HEATWORK_PAGE_PORT"] ?? 5440),
    strictPort: true,
    // The server answers writes from its own origin alone.
    proxy: Object.fromEntries(["/api", "/health"].map((path) => [path, { target: server, changeOrigin: true, headers: { origin: server } }])),
  },
});
