import { useEffect, useRef, useState } from 'react'
import { counted } from '../../../words/format-number.ts'

interface MoreBelowProps {
  /** What is counted, by its selector inside the part that scrolls. */
  counts: string
  one: string
  many: string
  /** Another content to count. */
  of: unknown
}

const scrollerOf = (button: Element | null) => button?.closest('.call-area')?.querySelector('.call') ?? null

/** Stands below the part that scrolls and says how much of it lies below its edge; a tap goes there. */
export function MoreBelow({ counts, one, many, of }: MoreBelowProps) {
  const button = useRef<HTMLButtonElement>(null)
  const [below, setBelow] = useState(0)
  const first = useRef<Element | null>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: another content has other things to count
  useEffect(() => {
    const scroller = scrollerOf(button.current)
    if (!scroller) return
    const hidden = new Set<Element>()
    const watch = new IntersectionObserver(
      (entries) => {
        for (const { target, intersectionRatio, boundingClientRect, rootBounds } of entries) {
          const isBelow =
            intersectionRatio < 0.9 && rootBounds !== null && boundingClientRect.bottom > rootBounds.bottom
          if (isBelow) hidden.add(target)
          else hidden.delete(target)
        }
        first.current = hidden.values().next().value ?? null
        setBelow(hidden.size)
      },
      { root: scroller, threshold: [0, 0.9, 1] },
    )
    for (const one of scroller.querySelectorAll(counts)) watch.observe(one)
    return () => watch.disconnect()
  }, [counts, of])
  return (
    <button
      ref={button}
      type="button"
      className="more-below"
      hidden={below === 0}
      onClick={() => first.current?.scrollIntoView({ block: 'start' })}
    >
      {counted(below, one, many)} <span aria-hidden="true">↓</span>
    </button>
  )
}
