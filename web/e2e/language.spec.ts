import { readFileSync } from 'node:fs';
import { deflateRawSync } from 'node:zlib';
import { accessFaults, expect, open, reload, story, test } from './page';

const german = (name: 'Deutsch' | 'English') => ({ name: new RegExp(name) });

test('the page speaks German when it is asked to, and again after a reload', async ({ page }) => {
  await open(page);
  await page.getByRole('button', german('Deutsch')).click();
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
  await expect(story(page)).toContainText(/^Mo 11\. Juni, Tag 43\. Etwa \d\.\d00 Bienen/);
  await expect(page.getByRole('heading', { name: 'Ist das Volk im Takt?' })).toBeVisible();
  await page.getByRole('button', { name: /Beispielvolks/ }).click();
  await expect(page.getByText('Mögliche Gründe')).toBeVisible({ timeout: 30_000 });
  await page.getByRole('button', { name: /^Liste nach/ }).click();
  await expect(page.getByText('Öffne das Volk').first()).toBeVisible({ timeout: 30_000 });
  await reload(page);
  await expect(story(page)).toContainText(/^Mo 11\. Juni, Tag 43\. Etwa \d\.\d00 Bienen/);
  await expect(page.locator('html')).toHaveAttribute('lang', 'de');
  await expect(page.getByRole('heading', { name: 'Ist das Volk im Takt?' })).toBeVisible();
  await expect(page.getByRole('button', german('Deutsch'))).toHaveCount(0);
  await page.getByRole('button', german('English')).click();
  await expect(story(page)).toContainText('day 43');
  await expect(page.locator('html')).toHaveAttribute('lang', 'en');
});

test.describe('of a browser that speaks German', () => {
  test.use({ locale: 'de-AT' });

  test('every part opens in German, none wider than the page, and the accessibility checker finds nothing', async ({ page }) => {
    await page.goto('./');
    await expect(story(page)).toContainText('Tag 43');
    for (const [view, heading] of [
      ['', 'Was jetzt'],
      ['yard', 'Der Stand'],
      ['visit', 'Was du gefunden hast'],
      ['lessons', 'Lektionen'],
      ['lessons/the-dip', 'Das Tal der ersten Wochen'],
      ['evidence', 'Belege'],
    ]) {
      await page.goto(`./#/${view}`);
      await expect(page.getByRole('heading', { name: heading }).first()).toBeVisible();
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth), view).toBeLessThanOrEqual(0);
      expect(await accessFaults(page), view).toEqual([]);
    }
  });

  test('the controls speak German, take a decimal comma and show one', async ({ page }) => {
    await page.goto('./');
    await expect(story(page)).toContainText('Tag 43');
    await page.getByRole('button', { name: 'Etwas ändern' }).filter({ visible: true }).click();
    const panel = page.locator('#change');
    await expect(panel.getByRole('group', { name: 'Beginn' })).toBeVisible();
    const weight = panel.getByRole('textbox', { name: 'Gewicht der Bienen' });
    await weight.fill('1,5');
    await weight.blur();
    await expect(weight).toHaveValue('1,5');
    await expect(panel.getByRole('slider', { name: 'Gewicht der Bienen, Schieber' })).toHaveAttribute('aria-valuetext', /^1,5/);
    expect(await panel.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeLessThanOrEqual(0);
    expect(await accessFaults(page)).toEqual([]);
  });

  test('shipped plans have German names, and what happened is told in the units of the page', async ({ page }) => {
    await page.goto('./');
    await expect(page.getByRole('link', { name: 'Ein Kunstschwarm im nassen Frühling, gefüttert' })).toBeVisible();
    await page.getByRole('button', { name: 'Etwas ändern' }).filter({ visible: true }).click();
    const examples = page.getByRole('combobox', { name: 'Ein Beispiel öffnen' });
    await examples.selectOption({ label: 'Jeder Handgriff' });
    await expect(page.getByRole('link', { name: 'Jeder Handgriff' })).toBeVisible();
    await expect(page).toHaveTitle(/: Jeder Handgriff · Combcast$/);
    await page.locator('#change').getByRole('button', { name: 'Schließen' }).click();
    await page.getByText('Die Saison als Tabelle, und was geschah').click();
    const events = page.getByRole('listitem').filter({ hasText: /^2\d{3}-/ });
    await expect(events.filter({ hasText: /\d kg/ })).not.toHaveCount(0);
    await page.getByRole('button', { name: 'lb, °F' }).click();
    await expect(events.filter({ hasText: /\d lb/ })).not.toHaveCount(0);
    await expect(events.filter({ hasText: /\d kg/ })).toHaveCount(0);
  });

  test('a fault that has English words only says so', async ({ page }) => {
    await page.goto('./');
    await expect(story(page)).toContainText('Tag 43');
    await page.getByRole('button', { name: 'Etwas ändern' }).filter({ visible: true }).click();
    await page.getByText('Die Datei als Text').click();
    const file = page.getByRole('textbox', { name: 'Die Szenariodatei als Text' });
    const before = await file.inputValue();
    await file.fill(before.replace('[place]', '[plaice]'));
    await expect(page.getByText('Diese Meldung ist englisch.')).toBeVisible();
    await expect(page.locator('.fault [lang=en]')).toContainText('plaice');
    await file.fill(before.replace('package.pounds = 3', 'package.pounds = 99'));
    await expect(page.locator('.problem').or(page.locator('.fault')).first()).toContainText('angegeben: 99');
    await expect(page.getByText('Diese Meldung ist englisch.')).toHaveCount(0);
  });

  test('a plan of a link or of a yard that cannot be read says why, and in which language', async ({ page, context }) => {
    await page.goto('./#/yard');
    await expect(page.getByText('Bremse:')).toBeVisible();
    const [saved] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Alles speichern' }).click()]);
    const text = readFileSync(await saved.path(), 'utf8');
    const file = (name: string, content: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(content) });
    const alert = page.getByRole('alert');
    await page.locator('input[type=file]').setInputFiles(file('stones.json', text.replace('"pounds"', '"stones"')));
    await expect(alert.locator('[lang=en]')).toContainText('stones');
    await expect(alert).toContainText('Diese Meldung ist englisch.');
    await page.locator('input[type=file]').setInputFiles(file('heavy.json', text.replace('"pounds": 3', '"pounds": 300')));
    await expect(alert).toContainText('angegeben: 300');
    await expect(alert).not.toContainText('Diese Meldung ist englisch.');

    const [{ name, scenario }] = JSON.parse(text).hives;
    const plan = deflateRawSync(JSON.stringify({ version: 1, name, scenario: { ...scenario, stones: 3 } })).toString('base64url');
    const other = await context.newPage();
    await other.goto(`./#plan=${plan}`);
    await expect(other.getByRole('alert').locator('[lang=en]')).toContainText('stones');
    await expect(other.getByRole('alert')).toContainText('Diese Meldung ist englisch.');
  });

  test('a visit goes by its day in German', async ({ page }) => {
    await page.goto('./#/visit');
    await page.getByRole('button', { name: 'Mehr Brut' }).or(page.getByRole('button', { name: 'Waben mit Brut, als volle Waben gerechnet: mehr' })).first().click();
    const visits = page.locator('.visits');
    await expect(visits.getByRole('button')).toHaveText('11. Juni');
    await reload(page);
    await expect(visits.getByRole('button')).toHaveText('11. Juni');
  });
});
