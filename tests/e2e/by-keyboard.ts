import type { Page } from 'playwright-core'

/** More stops lie between no two things that belong together. */
const MOST_STOPS = 250

type Way = 'Tab' | 'Shift+Tab'

/** What somebody does with a page, each thing by its name; what it takes is counted. */
export interface Hands {
  /** `farthest`: the most times the Tab key was pressed on the way to one thing, `where`. */
  readonly counts: { keys: number; clicks: number; fields: number; farthest: number; where: string }
  press(key: string): Promise<void>
  type(text: string): Promise<void>
  /** Goes to a field or the like that is ahead, or behind. */
  tabTo(name: string, way?: Way): Promise<void>
  /** Writes over what stands in a field that is ahead. */
  fill(name: string, text: string, way?: Way): Promise<void>
  /** Writes a list line by line; each line counts as a field of its own. */
  lines(name: string, list: readonly string[]): Promise<void>
  /** A choice by its first letters, or a tick (a blank). */
  choose(name: string, text: string, way?: Way): Promise<void>
  /** A part of a draft, of which the Tab key comes to the open one. */
  part(open: string, name: string): Promise<void>
  /** A box to tick in a list that is one stop of the Tab key. In: what the list is called, and words of its row. */
  tick(list: string, row: string): Promise<void>
  /** Pastes what was copied elsewhere. */
  paste(name: string, text: string): Promise<void>
  /** Takes the first that a field suggests. */
  pick(name: string, text: string, way?: Way): Promise<void>
  /** A button or link. */
  go(name: string, way?: Way): Promise<void>
  /** To a page, by searching for what one means to do. */
  goTo(title: string): Promise<void>
}

/** What is said of the thing that has the focus: its label, or its own words. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement | null
    return (at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '').trim()
  })

/** Whether the focus stands in an empty field of this name: then there is nowhere to go. */
const isAt = async (page: Page, name: string): Promise<boolean> =>
  (await focused(page)) === name &&
  page.evaluate(() => (document.activeElement as HTMLInputElement | null)?.value === '')

/** What the focus is at, where it stands in a table of this name; null: it stands elsewhere. */
const focusedIn = (page: Page, table: string): Promise<string | null> =>
  page.evaluate((caption) => {
    const row = document.activeElement?.closest('tr')
    return row?.closest('table')?.caption?.textContent === caption ? row.textContent : null
  }, table)

const isInText = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.activeElement?.matches('input, textarea, select') ?? false)

/** Somebody at a keyboard, who has no pointer; each key is counted. */
export function atKeyboard(page: Page): Hands {
  const counts = { keys: 0, clicks: 0, fields: 0, farthest: 0, where: '' }
  const press = async (key: string) => {
    counts.keys += 1
    await page.keyboard.press(key)
  }
  const type = async (text: string) => {
    counts.keys += text.length
    await page.keyboard.type(text)
  }
  const tabTo = async (name: string, way: Way = 'Tab') => {
    for (let stop = 0; stop < MOST_STOPS; stop++) {
      await press(way)
      if ((await focused(page)) === name) {
        if (stop >= counts.farthest) Object.assign(counts, { farthest: stop + 1, where: name })
        return
      }
    }
    throw new Error(`The Tab key does not come to "${name}"; it is at "${await focused(page)}".`)
  }
  const fill = async (name: string, text: string, way?: Way) => {
    if (!(await isAt(page, name))) await tabTo(name, way)
    await press('Control+a')
    counts.fields += 1
    await type(text)
  }
  return {
    counts,
    press,
    type,
    tabTo,
    fill,
    async lines(name, list) {
      if (list.length === 0) return
      await tabTo(name)
      counts.fields += list.length
      await type(list.join('\n'))
    },
    async choose(name, text, way) {
      await tabTo(name, way)
      counts.fields += 1
      await type(text)
    },
    async part(open, name) {
      await tabTo(open)
      await press('Home')
      for (let step = 0; (await focused(page)) !== name; step++) {
        if (step >= MOST_STOPS) throw new Error(`The arrow keys do not come to "${name}".`)
        await press('ArrowDown')
      }
      counts.fields += 1
      await press('Enter')
    },
    async tick(list, row) {
      for (let stop = 0; (await focusedIn(page, list)) === null; stop++) {
        if (stop >= MOST_STOPS) throw new Error(`The Tab key does not come into "${list}".`)
        await press('Tab')
        if (stop >= counts.farthest) Object.assign(counts, { farthest: stop + 1, where: list })
      }
      await press('Home')
      for (let step = 0; !(await focusedIn(page, list))?.includes(row); step++) {
        if (step >= MOST_STOPS) throw new Error(`The arrow keys do not come to "${row}" in "${list}".`)
        await press('ArrowDown')
      }
      counts.fields += 1
      await press('Space')
    },
    async paste(name, text) {
      await tabTo(name)
      counts.fields += 1
      counts.keys += 1
      await page.keyboard.insertText(text)
    },
    async pick(name, text, way) {
      await fill(name, text, way)
      await page.getByRole('option', { name: text }).first().waitFor()
      await press('Enter')
    },
    async go(name, way) {
      if ((await focused(page)) !== name) await tabTo(name, way)
      counts.fields += 1
      await press('Enter')
    },
    async goTo(title) {
      while (await isInText(page)) await press('Tab')
      await press('/')
      await page.getByRole('dialog', { name: 'Search' }).waitFor()
      await type(title)
      const marked = page.locator('[role=option][aria-selected=true]')
      await marked.filter({ hasText: title }).waitFor()
      counts.fields += 1
      await press('Enter')
    },
  }
}
