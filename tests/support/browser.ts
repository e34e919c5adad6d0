import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { type Browser, type BrowserContext, type BrowserContextOptions, chromium, type Page } from 'playwright-core'

const find = createRequire(import.meta.url)
const packages = path.resolve(import.meta.dirname, '../../node_modules')

/** Sizes of the screens the pages are made for, in CSS pixels. */
export const screens = {
  phone: { width: 390, height: 844 },
  desktop: { width: 1440, height: 900 },
} as const

/** Not the package's own list, which turns off what a test should see, such as the same-origin rule. */
const switches = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--font-render-hinting=none']

/** What a busy machine needs for one step of a page; a page that never gets there fails after it. */
const PATIENCE_MS = 180_000

/** Starts the Chromium from npm. It is unpacked once, with libraries and fonts, beside the installed packages. */
export async function openBrowser(): Promise<Browser> {
  const browser = await chromium.launch(await launchSettings())
  return browser.on('context', patient)
}

/** Starts it with a profile that outlives it, as a phone's does: what is kept in the folder is there again next time. */
export async function openProfile(folder: string, settings: BrowserContextOptions): Promise<BrowserContext> {
  return patient(await chromium.launchPersistentContext(folder, { ...(await launchSettings()), ...settings }))
}

function patient(context: BrowserContext): BrowserContext {
  context.setDefaultTimeout(PATIENCE_MS)
  context.setDefaultNavigationTimeout(PATIENCE_MS)
  return context
}

async function launchSettings() {
  const { home, executablePath } = await unpack()
  const env = {
    HOME: home,
    PATH: '/usr/bin:/bin',
    FONTCONFIG_FILE: path.join(home, 'fonts.conf'),
    LD_LIBRARY_PATH: path.join(home, 'al2023/lib'),
  }
  return { executablePath, args: switches, env }
}

/** Opens a page at the size of a screen, in a session of its own (no cookies of others). */
export async function openPage(browser: Browser, url: string, screen: keyof typeof screens): Promise<Page> {
  const isPhone = screen === 'phone'
  const context = await browser.newContext({
    viewport: screens[screen],
    isMobile: isPhone,
    hasTouch: isPhone,
    deviceScaleFactor: isPhone ? 2 : 1,
    reducedMotion: 'reduce',
  })
  const page = await context.newPage()
  await page.goto(url)
  return page
}

/** Rules of axe-core on which colours have a bearing, of those it runs. */
export const COLOUR_RULES = ['color-contrast', 'link-in-text-block'] as const

/**
 * What axe-core finds wrong with a page for people who see, hear or move differently: rule, and where. By all rules, or by
 * those that are named.
 */
export async function axeViolations(page: Page, rules?: readonly string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis)))
    await page.evaluate(fs.readFileSync(find.resolve('axe-core/axe.min.js'), 'utf8'))
  return page.evaluate(
    async (runOnly) => {
      const { axe } = globalThis as unknown as { axe: typeof import('axe-core') }
      // Where a rule is kept is worked out for violations alone; of what passes, the first place says that it was looked at.
      const { violations, passes } = await axe.run({ resultTypes: ['violations'], ...(runOnly && { runOnly }) })
      if (passes.length === 0) throw new Error('axe-core found nothing to check on this page.')
      return violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`))
    },
    rules && [...rules],
  )
}

/**
 * The package unpacks into the system's temporary folder and takes any Chromium it finds there, of whatever version; and
 * its font settings name that folder. So it gets a folder of its own by version, and font settings of ours.
 */
async function unpack(): Promise<{ home: string; executablePath: string }> {
  const { version } = JSON.parse(fs.readFileSync(path.join(packages, '@sparticuz/chromium/package.json'), 'utf8'))
  const home = path.join(packages, '.cache', `chromium-${version}`)
  const draft = `${home}.${process.pid}`
  if (!fs.existsSync(home)) {
    await unpackInto(draft)
    await fs.promises.rename(draft, home).catch(() => fs.promises.rm(draft, { recursive: true })) // Another was faster.
  }
  const folders = `<dir>${home}/fonts</dir><dir>/usr/share/fonts</dir><cachedir>${home}/fonts-cache</cachedir>`
  const settings = `<?xml version="1.0"?><!DOCTYPE fontconfig SYSTEM "fonts.dtd"><fontconfig>${folders}</fontconfig>`
  fs.writeFileSync(path.join(home, 'fonts.conf'), settings)
  return { home, executablePath: path.join(home, 'chromium') }
}

async function unpackInto(folder: string): Promise<void> {
  fs.mkdirSync(folder, { recursive: true })
  const usual = process.env.TMPDIR
  process.env.TMPDIR = folder
  try {
    const { default: packed, inflate } = await import('@sparticuz/chromium')
    await packed.executablePath()
    await inflate(path.join(packages, '@sparticuz/chromium/bin/al2023.tar.br'))
  } finally {
    if (usual === undefined) delete process.env.TMPDIR
    else process.env.TMPDIR = usual
  }
}
