import './reading-band.css'

export interface BandReading {
  value: number
  inside: boolean
  /** The grader let the mark stand in spite of it. */
  overridden?: boolean
}

interface ReadingBandProps {
  min: number | null
  max: number | null
  /** The range of the scale, the same for every line under one heading. */
  from: number
  to: number
  readings: readonly BandReading[]
  /** The line in words. */
  label: string
}

/** Readings as dots on their band: solid inside it, hollow outside, hollow with a cross where the mark stands nevertheless. */
export function ReadingBand({ min, max, from, to, readings, label }: ReadingBandProps) {
  const at = (value: number) => `${(100 * (Math.min(to, Math.max(from, value)) - from)) / (to - from)}%`
  return (
    <svg className="reading-band" role="img" aria-label={label}>
      <rect
        className="reading-inside"
        x={at(min ?? from)}
        y="0"
        width={`${(100 * ((max ?? to) - (min ?? from))) / (to - from)}%`}
        height="100%"
      />
      {min !== null && <line className="reading-edge" x1={at(min)} x2={at(min)} y1="0" y2="100%" />}
      {max !== null && <line className="reading-edge" x1={at(max)} x2={at(max)} y1="0" y2="100%" />}
      <line className="reading-scale" x1="0" x2="100%" y1="50%" y2="50%" />
      {readings.map(({ value, inside, overridden }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: readings keep their order
        <g key={index}>
          <circle className={inside ? 'reading-dot' : 'reading-dot reading-out'} cx={at(value)} cy="50%" r="5.5" />
          {overridden && (
            <text className="reading-stands" x={at(value)} y="50%" dy="0.33em" textAnchor="middle">
              +
            </text>
          )}
        </g>
      ))}
    </svg>
  )
}
