// The report page and the rebuild sheets as files: read on a phone and at a desk, light and dark, in English and German, and
// printed on A4 and Letter.
//
// Checked against WCAG 2.2 AA by axe-core; sizes of paper are those of ISO 216 (A4) and ANSI/ASME Y14.1 (Letter, A).

import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import path from "node:path";
import { after, before, describe, test } from "node:test";
import { DESK, PHONE, barriers, browser, fewRows, open, pagesOf, report, sideways, smallTargets } from "./served.js";

const LANGUAGES = [["en", "Do now", /Print the long tables too/], ["de", "Jetzt zu tun", /Auch die langen Tabellen drucken/]];
// What a buyer acts on; the long tables of all parts come on paper only where somebody ticks it.
const MOST_PAGES = 22;

let running;
const made = {};
before(async () => {
  running = await browser();
  for (const [language] of LANGUAGES) made[language] = report(language);
});
after(async () => {
  await running?.close();
  for (const one of Object.values(made)) one.remove();
});

for (const [language, doNow, choice] of LANGUAGES) {
  describe(`reorder.html, ${language}`, () => {
    for (const [width, size] of [["phone", PHONE], ["desk", DESK]]) {
      for (const scheme of ["light", "dark"]) {
        test(`${width}, ${scheme}`, async () => {
          const page = await open(running, { size, scheme });
          await page.goto(made[language].page("reorder.html"));
          assert.equal(await page.locator("html").getAttribute("lang"), language);
          await page.getByRole("heading", { name: doNow }).waitFor();
          assert.equal(await sideways(page), 0);
          assert.deepEqual(page.complaints, []);
          if (width === "phone") assert.deepEqual(await smallTargets(page), []);
          await fewRows(page);
          assert.deepEqual(await barriers(page), []);
          await page.screenshot({ path: path.join(import.meta.dirname, "pictures", `report-${language}-${width}-${scheme}.png`) });
          await page.locator("#kits").scrollIntoViewIfNeeded();
          await page.screenshot({ path: path.join(import.meta.dirname, "pictures", `report-kits-${language}-${width}-${scheme}.png`) });
          await page.context().close();
        });
      }
    }

    for (const [width, size] of [["phone", PHONE], ["desk", DESK]]) test(`the rebuild sheets, ${width}`, async () => {
      const page = await open(running, { size });
      await page.goto(made[language].page("rebuild_sheets.html"));
      assert.equal(await page.locator("main").count(), 1);
      assert.equal(await sideways(page), 0);
      assert.deepEqual(await barriers(page), []);
      await page.screenshot({ path: path.join(import.meta.dirname, "pictures", `rebuild-${language}-${width}.png`) });
      await page.context().close();
    });

    test("needs no scripting to be read", async () => {
      const page = await open(running, { scripts: false });
      await page.goto(made[language].page("reorder.html"));
      await page.getByRole("heading", { name: doNow }).waitFor();
      assert.ok(await page.locator("#order_now tbody tr").count() > 0);
      await page.context().close();
    });

    for (const format of ["A4", "Letter"]) {
      test(`prints what is to be done on few sheets of ${format}, and everything where that is ticked`, async () => {
        const page = await open(running, { size: DESK });
        await page.goto(made[language].page("reorder.html"));
        const few = await page.pdf({ format, landscape: true, preferCSSPageSize: false });
        writeFileSync(path.join(import.meta.dirname, "pictures", `report-${language}-${format}.pdf`), few);
        assert.ok(pagesOf(few) > 1 && pagesOf(few) <= MOST_PAGES, `${pagesOf(few)} pages`);
        await page.emulateMedia({ media: "print" });
        assert.ok(await page.locator(".not-printed").isVisible());
        assert.ok(await page.locator("#order_now").isVisible());
        assert.ok(!await page.locator("#levels").isVisible());
        await page.emulateMedia({ media: "screen" });
        assert.ok(!await page.locator(".not-printed").isVisible());
        await page.getByLabel(choice).check();
        const all = await page.pdf({ format, landscape: true });
        assert.ok(pagesOf(all) > 2 * pagesOf(few), `${pagesOf(all)} pages`);
        await page.emulateMedia({ media: "print" });
        assert.ok(await page.locator("#levels").isVisible());
        assert.ok(!await page.locator(".not-printed").isVisible());
        await page.context().close();
      });

      test(`a rebuild sheet is one sheet of ${format} a kit`, async () => {
        const page = await open(running, { size: DESK });
        await page.goto(made[language].page("rebuild_sheets.html"));
        const kits = await page.locator("article").count();
        assert.ok(kits > 1);
        assert.equal(pagesOf(await page.pdf({ format })), kits);
        await page.context().close();
      });
    }
  });
}

test("the count of pages can tell one from two", async () => {
  const page = await open(running, { size: DESK });
  await page.setContent("<p>one</p>");
  assert.equal(pagesOf(await page.pdf({ format: "A4" })), 1);
  await page.setContent('<p>one</p><p style="break-before:page">two</p>');
  assert.equal(pagesOf(await page.pdf({ format: "A4" })), 2);
  await page.context().close();
});
