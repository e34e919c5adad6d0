import type { ElementHandle, Page } from 'playwright-core'
import { atKeyboard, type Hands } from './by-keyboard.ts'

/** How near the left edge of a field of date or time its first part is. */
const FIRST_PART = { x: 14, y: 14 }

/** The next thing of this name after the one that has the focus, or before it; the first one where there is none. */
const find = async (
  page: Page,
  name: string,
  way: 'Tab' | 'Shift+Tab' = 'Tab',
): Promise<ElementHandle<HTMLElement>> => {
  const found = await page.waitForFunction(
    ({ wanted, back }) => {
      const scope = document.querySelector('dialog:modal') ?? document
      const all = [...scope.querySelectorAll<HTMLInputElement>('a[href], button, input, select, textarea, summary')]
      const named = all.filter((one) => {
        const said = one.getAttribute('aria-label') ?? one.labels?.[0]?.textContent ?? one.textContent ?? ''
        return said.trim() === wanted && !one.disabled && one.checkVisibility()
      })
      const at = document.activeElement
      const after = (one: Element) => !at || at === document.body || Boolean(at.compareDocumentPosition(one) & 4)
      if (back) return named.filter((one) => !after(one) && one !== at).at(-1) ?? named[0]
      return named.find((one) => one !== at && after(one)) ?? named[0]
    },
    { wanted: name, back: way === 'Shift+Tab' },
  )
  return found.asElement() as ElementHandle<HTMLElement>
}

/** Somebody with a mouse in one hand: what is chosen or pressed is clicked, what is written is typed. */
export function atMouse(page: Page): Hands {
  const keyboard = atKeyboard(page)
  const { counts, press, type } = keyboard
  const click = async (what: ElementHandle<HTMLElement>, position?: { x: number; y: number }) => {
    counts.clicks += 1
    await what.click({ ...(position && { position }) })
  }
  const tabTo: Hands['tabTo'] = async (name, way) => {
    const what = await find(page, name, way)
    const kind = await what.evaluate((one) => (one as HTMLInputElement).type ?? '')
    if (kind === 'date' || kind === 'time') await click(what, FIRST_PART)
    else if (['text', 'number', 'textarea', 'search'].includes(kind)) await click(what)
    // A click would press it; so the keys go there.
    else await keyboard.tabTo(name, way)
  }
  const fill: Hands['fill'] = async (name, text, way) => {
    await tabTo(name, way)
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
      const what = await find(page, name, way)
      counts.fields += 1
      if (text === ' ') return click(what)
      // One click opens the list, one chooses.
      counts.clicks += 2
      const value = await what.evaluate(
        (one, start) =>
          [...(one as HTMLSelectElement).options].find(({ label }) => label.trim().startsWith(start))!.value,
        text,
      )
      await what.focus()
      await what.selectOption(value)
    },
    async part(_open, name) {
      counts.fields += 1
      await click(await find(page, name))
    },
    async tick(list, row) {
      counts.fields += 1
      counts.clicks += 1
      await page.getByRole('table', { name: list }).locator('label', { hasText: row }).click()
    },
    async paste(name, text) {
      await tabTo(name)
      counts.fields += 1
      counts.keys += 1
      await page.keyboard.insertText(text)
    },
    async pick(name, text, way) {
      await fill(name, text, way)
      counts.clicks += 1
      await page.getByRole('option', { name: text }).first().click()
    },
    async go(name, way) {
      counts.fields += 1
      await click(await find(page, name, way))
    },
    async goTo(title) {
      counts.fields += 1
      await click(await find(page, 'Search'))
      await page.getByRole('dialog', { name: 'Search' }).waitFor()
      await type(title)
      counts.clicks += 1
      await page.getByRole('option', { name: title }).first().click()
    },
  }
}
