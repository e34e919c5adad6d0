import { INKS, type Ink } from './plot.ts'

/** What the page looks like now, in terms a canvas takes. */
export interface Look {
  ink: Record<Ink, string>
  font: string
  /** Of small text, in pixels. */
  size: number
}

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
  probe.style.fontSize = 'var(--tiny)'
  const { fontFamily: font, fontSize } = getComputedStyle(probe)
  probe.remove()
  return { ink, font, size: Number.parseFloat(fontSize) }
}
