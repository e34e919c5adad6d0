import type { Page } from 'playwright-core'

export interface Targets {
  /** The least height and width of a control, in CSS pixels. */
  readonly least: number
  /** Controls that need more, by selector. */
  readonly larger?: Readonly<Record<string, number>>
}

/**
 * Every control of a page that somebody could not press: outside the window though scrolled to, below something else, with words
 * that are cut off, or too small for a thumb. Out: a line each, with its words.
 */
export const cutControls = (page: Page, { least, larger = {} }: Targets): Promise<string[]> =>
  page.evaluate(
    ({ least, larger }) => {
      const found: string[] = []
      const top = document.querySelector('dialog[open]') ?? document
      const controls = [...top.querySelectorAll<HTMLElement>('button, a[href], input, select, textarea, summary')]
      const isShown = (control: HTMLElement) =>
        control.checkVisibility({ visibilityProperty: true, opacityProperty: true }) &&
        !control.closest('.out-of-sight')
      for (const control of controls.filter(isShown)) {
        const words = (control.textContent || control.getAttribute('aria-label') || control.tagName).trim().slice(0, 60)
        // A word within a sentence may be as high as its line; a box is pressed by its whole label.
        const isInline = getComputedStyle(control).display === 'inline' || control.matches('.button-quiet')
        const pressed = control.closest('label') ?? control
        pressed.scrollIntoView({ block: 'nearest', inline: 'nearest' })
        const box = pressed.getBoundingClientRect()
        const x = box.left + box.width / 2
        const y = box.top + box.height / 2
        const isInside = box.left >= -1 && box.right <= innerWidth + 1 && y >= 0 && y <= innerHeight
        if (!isInside) found.push(`${words}: outside the window`)
        else {
          const hit = document.elementFromPoint(x, y)
          if (!hit || !(pressed.contains(hit) || hit.contains(pressed)))
            found.push(`${words}: below ${hit?.className || hit?.tagName}`)
        }
        const isCut = control.scrollWidth > control.clientWidth + 1 || control.scrollHeight > control.clientHeight + 1
        if (isCut && control.matches('button, a') && !isInline) found.push(`${words}: words are cut`)
        const need = Object.entries(larger).find(([selector]) => control.matches(selector))?.[1] ?? least
        if (!isInline && Math.min(box.height, box.width) < need - 0.5) {
          found.push(`${words}: ${Math.round(box.width)} by ${Math.round(box.height)}, not ${need}`)
        }
      }
      return found
    },
    { least, larger },
  )

/** The parts of a page, by selector, that somebody who has not scrolled does not see whole, or not at all. */
export const outOfSight = (page: Page, selectors: readonly string[]): Promise<string[]> =>
  page.evaluate(
    (wanted) =>
      wanted.filter((selector) => {
        const part = document.querySelector(selector)
        if (!part) return true
        const { left, right, top, bottom } = part.getBoundingClientRect()
        if (left < -1 || right > innerWidth + 1 || top < -1 || bottom > innerHeight + 1) return true
        const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2)
        return !hit || !(part.contains(hit) || hit.contains(part))
      }),
    selectors,
  )
