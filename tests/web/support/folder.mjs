// A folder on a plain web server of its own, as `outbye pack` writes it for the phone.
import { createServer } from "node:http";
import { readFile } from "node:fs/promises";
import { extname, join, normalize } from "node:path";

const types = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".json": "application/json", ".wasm": "application/wasm",
  ".svg": "image/svg+xml", ".png": "image/png", ".pdf": "application/pdf", ".ics": "text/calendar", ".webmanifest": "application/manifest+json" };

export async function serveFolder(first) {
  let folder = first;
  const asked = [];
  const server = createServer(async (request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, "http://x").pathname)).replace(/\/$/, "/index.html");
    asked.push(path);
    try {
      const bytes = await readFile(join(folder, path));
      response.writeHead(200, { "Content-Type": types[extname(path)] ?? "application/octet-stream" }).end(bytes);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((resolve) => server.listen(0, "127.0.0.1", resolve));
  return {
    address: `http://127.0.0.1:${server.address().port}/`, // a secure context, so that the service worker runs
    asked,
    nowServe: (other) => (folder = other),
    stop: () => new Promise((resolve) => (server.closeAllConnections(), server.close(resolve))),
  };
}
