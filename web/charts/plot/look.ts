import { INKS, type Ink } from './plot.ts'

/** What the page looks like now, in terms a canvas takes. */
export interface Look {
  ink: Record<Ink, string>
  font: string
  /** Of small text, in pixels. */
  size: number
}

const SMALL_REM = 0.8125

/** The colours and type of the page around an element, as its theme (or print) gives them now. */
export const lookAround = (element: Element): Look => {
  const probe = document.createElement('span')
  element.append(probe)
  const ink = Object.fromEntries(
    INKS.map((token) => {
      probe.style.color = `var(--${token})`
      return [token, getComputedStyle(probe).color]
    }),
  ) as Record<Ink, string>
  const font = getComputedStyle(probe).fontFamily
  probe.remove()
  return { ink, font, size: SMALL_REM * Number.parseFloat(getComputedStyle(document.documentElement).fontSize) }
}
