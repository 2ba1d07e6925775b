import { defineConfig, devices } from '@playwright/test';

const port = Number(process.env.COMBCAST_PORT ?? 8101);
const baseURL = `http://127.0.0.1:${port}/`;

export default defineConfig({
  testDir: 'e2e',
  outputDir: 'test-results',
  fullyParallel: true,
  workers: 2,
  forbidOnly: true,
  // Patience, no tolerance: a slow and busy machine may take its time, what must come must still come.
  timeout: 90_000,
  expect: { timeout: 20_000 },
  reporter: [['list']],
  use: {
    baseURL,
    locale: 'en-GB',
    launchOptions: {
      executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
      // No sandbox inside a container, and no talk with anybody but this machine.
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        '--disable-domain-reliability',
      ],
    },
  },
  webServer: {
    command: `cargo run --quiet --package xtask -- serve --port ${port}`,
    cwd: '..',
    url: baseURL,
    reuseExistingServer: false,
    timeout: 300_000,
  },
  projects: [
    { name: 'desktop', use: { ...devices['Desktop Chrome'], viewport: { width: 1280, height: 800 } } },
    { name: 'phone', use: { ...devices['Pixel 7'] } },
  ],
});
