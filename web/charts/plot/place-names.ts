interface Named {
  name: string
  x: number
  y: number
  /** Of the written name. */
  width: number
}

interface Area {
  left: number
  right: number
  top: number
  bottom: number
}

/** Between a point and its name. */
const GAP = 11

/**
 * Where the names of points are written, all in pixels: to the right of the point, to the left where the drawing ends, and
 * lower (at the bottom: higher) where another name stands already. In: the points, the height of a line, the drawing's area.
 */
export const placeNames = (
  points: readonly Named[],
  line: number,
  area: Area,
): { name: string; x: number; y: number }[] => {
  const placed: (Named & { at: number })[] = []
  for (const point of [...points].sort((a, b) => a.y - b.y)) {
    const left = point.x + GAP + point.width <= area.right ? point.x + GAP : point.x - GAP - point.width
    const x = Math.max(area.left, left)
    const isTaken = (y: number) =>
      placed.some((one) => Math.abs(one.y - y) < line && one.at < x + point.width && x < one.at + one.width)
    const steps = [0, 1, -1, 2, -2, 3, -3, 4, -4].map((step) => point.y + step * line)
    const free = steps.find((y) => !isTaken(y) && y >= area.top && y <= area.bottom)
    placed.push({ ...point, y: free ?? point.y, at: x })
  }
  return placed.map(({ name, at, y }) => ({ name, x: at, y }))
}
