import type { Plugin } from 'chart.js'
import type { Look } from './look.ts'
import { placeNames } from './place-names.ts'

interface Options {
  ink?: string
  paper?: string
  font?: string
  size?: number
}

/** Writes the names of points beside them, once all else is drawn; in the colours of `pointNamesIn`. */
export const pointNames: Plugin<'bar' | 'line' | 'scatter', Options> = {
  id: 'pointNames',
  afterDatasetsDraw: (chart, _args, { ink, paper, font, size = 13 }) => {
    const { ctx, data, chartArea } = chart
    ctx.save()
    ctx.font = `${size}px ${font}`
    ctx.textBaseline = 'middle'
    ctx.lineJoin = 'round'
    ctx.lineWidth = 4
    ctx.strokeStyle = paper ?? 'transparent'
    ctx.fillStyle = ink ?? 'black'
    const points = data.datasets.flatMap((set, at) =>
      (set.data as readonly { name?: string }[]).flatMap(({ name }, index) => {
        const drawn = chart.getDatasetMeta(at).data[index]
        return name && drawn ? [{ name, x: drawn.x, y: drawn.y, width: ctx.measureText(name).width }] : []
      }),
    )
    for (const { name, x, y } of placeNames(points, size * 1.3, chartArea)) {
      // Isolated, so that a name in another script keeps its grade in front.
      ctx.strokeText(`\u2068${name}\u2069`, x, y)
      ctx.fillText(`\u2068${name}\u2069`, x, y)
    }
    ctx.restore()
  },
}

/** Its settings: the look of the page, which may change under the chart. */
export const pointNamesIn = ({ ink, font, size }: Look): { pointNames: Options } => ({
  pointNames: { ink: ink.ink, paper: ink.paper, font, size },
})
