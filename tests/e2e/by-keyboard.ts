import type { Page } from 'playwright-core'

/** More stops lie between no two things that belong together. */
const MOST_STOPS = 120

/** What is said of the thing that has the focus: its label, or its own words. */
const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement as HTMLInputElement | null
    return (at?.getAttribute('aria-label') ?? at?.labels?.[0]?.textContent ?? at?.textContent ?? '').trim()
  })

/** Somebody at a keyboard, who has no pointer; each key is counted. */
export function atKeyboard(page: Page) {
  const counts = { keys: 0, fields: 0 }
  const press = async (key: string) => {
    counts.keys += 1
    await page.keyboard.press(key)
  }
  const type = async (text: string) => {
    counts.keys += text.length
    await page.keyboard.type(text)
  }
  const tabTo = async (name: string, key: 'Tab' | 'Shift+Tab' = 'Tab') => {
    for (let stop = 0; stop < MOST_STOPS; stop++) {
      await press(key)
      if ((await focused(page)) === name) return
    }
    throw new Error(`The Tab key does not come to "${name}"; it is at "${await focused(page)}".`)
  }
  return {
    counts,
    press,
    type,
    tabTo,
    /** Writes over what stands in a field that is ahead. */
    async fill(name: string, text: string) {
      await tabTo(name)
      await press('Control+a')
      counts.fields += 1
      await type(text)
    },
    /** Writes a list line by line; each line counts as a field of its own. */
    async lines(name: string, list: readonly string[]) {
      if (list.length === 0) return
      await tabTo(name)
      counts.fields += list.length
      await type(list.join('\n'))
    },
    /** A choice by its first letters, or a button or a tick. */
    async choose(name: string, text: string) {
      await tabTo(name)
      counts.fields += 1
      await type(text)
    },
    async go(name: string, key?: 'Tab' | 'Shift+Tab') {
      await tabTo(name, key)
      counts.fields += 1
      await press('Enter')
    },
  }
}
