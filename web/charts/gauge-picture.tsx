import { drawAngle, drawStretch, PICTURE, type Tolerance } from './gauge-drawing.ts'
import './gauge-picture.css'

interface GaugePictureProps {
  tolerance: Tolerance
  kind: 'angle' | 'height' | 'distance' | 'scale'
  /** Not for reading aloud: the same stands in words beside it. */
  unit: string
}

/** A tolerance drawn to scale: what is right is filled, the target a dashed line. */
export function GaugePicture({ tolerance, kind, unit }: GaugePictureProps) {
  const { width, height } = PICTURE
  return (
    <svg className="gauge-picture" width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      {kind === 'angle' ? (
        <Angle tolerance={tolerance} />
      ) : kind === 'height' ? (
        <Height tolerance={tolerance} unit={unit} />
      ) : (
        <Across tolerance={tolerance} unit={unit} fromZero={kind === 'distance'} />
      )}
    </svg>
  )
}

function Angle({ tolerance }: { tolerance: Tolerance }) {
  const { origin, base, sector, rays, target } = drawAngle(tolerance)
  return (
    <>
      <path className="gauge-right" d={sector} />
      <line className="gauge-base" x1={origin.x} y1={origin.y} x2={base.x} y2={base.y} />
      {rays.map(({ x, y, value }, place) => (
        <g key={value}>
          <line className="gauge-limit" x1={origin.x} y1={origin.y} x2={x} y2={y} />
          <text
            x={x + (x >= origin.x ? 4 : -4)}
            y={y + (place === 0 ? 10 : 0)}
            textAnchor={x >= origin.x ? 'start' : 'end'}
          >
            {value}°
          </text>
        </g>
      ))}
      {target && <line className="gauge-target" x1={origin.x} y1={origin.y} x2={target.x} y2={target.y} />}
    </>
  )
}

const EDGE = 14
const BAR = 34

function Height({ tolerance, unit }: { tolerance: Tolerance; unit: string }) {
  const { width, height } = PICTURE
  const { length, band, target, marks } = drawStretch(tolerance, height - 2 * EDGE, true)
  const y = (at: number) => height - EDGE - at
  return (
    <>
      <rect className="gauge-right" x={20} width={BAR} y={y(band.to)} height={band.to - band.from} />
      <line className="gauge-base" x1={4} x2={width - 40} y1={y(marks[0]!.at)} y2={y(marks[0]!.at)} />
      <line className="gauge-rule" x1={20} x2={20} y1={y(0)} y2={y(length)} />
      {marks.slice(1).map(({ at, value }, place) => (
        <g key={value}>
          <line className="gauge-limit" x1={20} x2={20 + BAR} y1={y(at)} y2={y(at)} />
          <text x={26 + BAR} y={y(at) + (place === 0 && marks.length > 2 ? 9 : 1)}>
            {value} {unit}
          </text>
        </g>
      ))}
      {target !== null && <line className="gauge-target" x1={14} x2={26 + BAR} y1={y(target)} y2={y(target)} />}
    </>
  )
}

function Across({ tolerance, unit, fromZero }: { tolerance: Tolerance; unit: string; fromZero: boolean }) {
  const { width, height } = PICTURE
  const { length, band, target, marks } = drawStretch(tolerance, width - 2 * EDGE, fromZero)
  const middle = height / 2
  const limits = fromZero ? marks.slice(1) : marks
  return (
    <>
      <rect className="gauge-right" x={EDGE + band.from} width={band.to - band.from} y={middle - 12} height={24} />
      <line className="gauge-base" x1={EDGE} x2={EDGE + length} y1={middle + 12} y2={middle + 12} />
      {limits.map(({ at, value }, place) => (
        <g key={value}>
          <line className="gauge-limit" x1={EDGE + at} x2={EDGE + at} y1={middle - 12} y2={middle + 16} />
          <text
            x={EDGE + at}
            y={place === 0 && limits.length > 1 ? middle + 28 : middle - 17}
            textAnchor={at > length / 2 ? 'end' : 'start'}
          >
            {value} {unit}
          </text>
        </g>
      ))}
      {target !== null && (
        <line className="gauge-target" x1={EDGE + target} x2={EDGE + target} y1={middle - 16} y2={middle + 12} />
      )}
    </>
  )
}
