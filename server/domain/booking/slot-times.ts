/** Minutes since midnight of the day, by the clock on the wall. */
export interface SlotTime {
  readonly from: number
  readonly to: number
}

/**
 * The slots one after the other in a stretch of a day: each so many minutes long, with a pause between. A slot that
 * would end after the stretch is left out. All in minutes; `minutes` is at least 1 and `pause` at least 0.
 */
export function slotTimes(stretch: SlotTime, minutes: number, pause: number): SlotTime[] {
  const slots: SlotTime[] = []
  for (let from = stretch.from; from + minutes <= stretch.to; from += minutes + pause) {
    slots.push({ from, to: from + minutes })
  }
  return slots
}
