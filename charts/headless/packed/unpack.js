// Unpacks the browser that the npm package carries into dist/, all of it or nothing.
import { copyFileSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { inflate } from "@sparticuz/chromium";

const here = dirname(fileURLToPath(import.meta.url));
const packed = join(here, "node_modules/@sparticuz/chromium/bin");
const made = mkdtempSync(join(here, "dist-"));

process.env.TMPDIR = made; // inflate unpacks into the folder for temporary files
for (const file of ["chromium.br", "swiftshader.tar.br", "al2023.tar.br", "fonts.tar.br"]) {
  await inflate(join(packed, file));
}
for (const file of ["chromium.sh", "fonts.conf"]) {
  copyFileSync(join(here, file), join(made, file));
}

const dist = join(here, "dist");
rmSync(dist, { recursive: true, force: true });
renameSync(made, dist);
