// Takes the pictures that the README shows, of the demo as the built program reports and serves it:
// `npm run pictures --prefix tests/browser`. Needs LibreOffice and pdftoppm besides the browser.

import { execFileSync } from "node:child_process";
import { copyFileSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { DEMO, PHONE, browser, open, report, serve } from "./served.js";

const SAMPLE = path.resolve(import.meta.dirname, "../../reports/sample");
const DESK = { width: 960, height: 1000 };
const shown = (name) => path.join(SAMPLE, `${name}.png`);

const running = await browser();
const served = await serve({ folder: DEMO });
const reported = report("en");

async function picture(name, address, size, at = null) {
  const page = await open(running, { size });
  await page.goto(address);
  if (at) await page.locator(at).first().evaluate((of) => window.scrollTo(0, of.getBoundingClientRect().top + window.scrollY - 12));
  await page.screenshot({ path: shown(name) });
  await page.context().close();
}

await picture("page", reported.page("reorder.html"), { width: 1280, height: 1400 });
await picture("page-look-up", `${served.address}/?bore=39%2C98&od=89%2C99&width=23&kind=deep+groove&tool=calliper`, PHONE, "#ask .figures");
await picture("page-kit", `${served.address}/kits/6`, DESK, "#missing");
await picture("page-levels", `${served.address}/levels?budget=14000`, DESK);

// The workbook as another program prints it.
const folder = mkdtempSync(path.join(tmpdir(), "sparewright-sheets-"));
const quietly = { stdio: "ignore", cwd: folder };
execFileSync("soffice", ["--headless", `-env:UserInstallation=file://${folder}/office`, "--convert-to", "pdf", path.join(reported.folder, "reorder.xlsx")], quietly);
// The first page of each sheet, by its header.
const headers = execFileSync("pdftotext", ["-layout", "reorder.pdf", "-"], { cwd: folder, encoding: "utf8" }).split("\f").map((page) => page.trimStart());
const pageOf = (sheet) => String(1 + headers.findIndex((page) => page.startsWith(sheet)));
for (const [name, sheet, resolution] of [["workbook-cover", "Cover", "80"], ["workbook-order-now", "Order now", "90"]]) {
  const number = pageOf(sheet);
  execFileSync("pdftoppm", ["-r", resolution, "-f", number, "-l", number, "-singlefile", "-png", "reorder.pdf", name], quietly);
  copyFileSync(path.join(folder, `${name}.png`), shown(name));
}
rmSync(folder, { recursive: true, force: true });
reported.remove();
served.stop();
await running.close();
