import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vitest/config";

export default defineConfig({
  plugins: [svelte()],
  // In tests the state's runes run as they do in a browser.
  resolve: process.env.VITEST ? { conditions: ["browser"] } : undefined,
  build: {
    target: "es2022",
    assetsInlineLimit: 0, // a data: address would need a wider content security policy
    modulePreload: { polyfill: false },
    rollupOptions: {
      output: {
        // The map's library is in a chunk of its own, which views/points and views/day import when they show a map.
        manualChunks: (id) => (id.includes("node_modules/maplibre-gl") ? "maplibre" : undefined),
      },
    },
    chunkSizeWarningLimit: 1500,
  },
  server: { proxy: { "/api": process.env.OUTBYE ?? "http://127.0.0.1:8080" } },
  test: { include: ["src/**/*.test.ts"], environment: "node", restoreMocks: true },
});
