// Builds the page of the day, into dist-day: one script, one style sheet and the service worker, with fixed names, so that
// `outbye pack` can put them into a folder or into a single file. files.json of the folder says which state of them it is.
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

export default defineConfig({
  plugins: [svelte()],
  base: "./",
  publicDir: false,
  build: {
    outDir: "dist-day",
    target: "es2022",
    assetsInlineLimit: 0,
    cssCodeSplit: false,
    modulePreload: false,
    rollupOptions: {
      input: { day: "day.html", sw: "src/day/service_worker.ts" },
      output: { entryFileNames: "[name].js", chunkFileNames: "[name].js", assetFileNames: "day[extname]" },
    },
  },
});
