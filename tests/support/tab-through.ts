import type { Page } from 'playwright-core'

/** More stops are not walked; the rest of a long list is like its beginning. */
const MOST_STOPS = 300

/**
 * Goes through a page by the Tab key. Out: what one can click and does not reach, and what one reaches without seeing that
 * one is there.
 */
export async function tabThrough(page: Page): Promise<string[]> {
  const count = await page.evaluate(() => {
    const stops = 'a[href], button, input, select, textarea, summary, [tabindex="0"]'
    const within = [...document.querySelectorAll<HTMLElement>(stops)].filter((element) => {
      if (
        element.matches(':disabled') ||
        element.tabIndex < 0 ||
        !element.checkVisibility({ visibilityProperty: true })
      )
        return false
      const { type, name, checked } = element as HTMLInputElement
      if (type !== 'radio' || checked) return true
      return document.querySelector(`input[type=radio][name="${name}"]:checked`) === null
    })
    for (const element of within) element.dataset.waits = ''
    document.body.focus()
    return within.length
  })
  const unseen: string[] = []
  // A date takes several presses, one for each of its parts.
  for (let press = 0; press < Math.min(2 * count + 40, MOST_STOPS); press++) {
    await page.keyboard.press('Tab')
    const found = await page.evaluate(() => {
      const at = document.activeElement as HTMLElement | null
      if (!at || at === document.body) return null
      delete at.dataset.waits
      if (document.querySelector('[data-waits]') === null) return 'all'
      const { outlineStyle, outlineWidth } = getComputedStyle(at)
      const isSeen = outlineStyle !== 'none' && Number.parseFloat(outlineWidth) > 0
      return isSeen ? null : `no focus to be seen: ${at.outerHTML.slice(0, 120)}`
    })
    if (found === 'all') return unseen
    if (found) unseen.push(found)
  }
  if (2 * count + 40 > MOST_STOPS) return unseen
  const missed = await page.evaluate(() =>
    [...document.querySelectorAll('[data-waits]')].map((element) => `not reached: ${element.outerHTML.slice(0, 120)}`),
  )
  return [...unseen, ...missed]
}
