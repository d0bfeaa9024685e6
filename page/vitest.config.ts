import { defineConfig } from "vitest/config";

export default defineConfig({ test: { include: ["src/**/*_test.ts", "sign-in/**/*_test.ts"], setupFiles: ["./src/state/device_for_tests.ts"], environment: "node" } });
