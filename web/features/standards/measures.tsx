import type { Standard } from '#contract/standards/standards.ts'
import { counted } from '../../words/format-number.ts'

/** The measures of a standard with what is checked and which faults there are. */
export function Measures({ standard }: { standard: Standard }) {
  const gaugeTitle = (code: string) => standard.gauges.find((gauge) => gauge.code === code)?.title ?? code
  return (
    <ol className="standard-measures">
      {standard.majors.map((major) => (
        <li key={major.code}>
          <h3>
            {major.title}
            <span className="standard-kind muted">major</span>
          </h3>
          <div className="standard-checks">
            <Points title="Looked at" points={major.criteria} />
            <Points title="Faults" points={major.faults.map(({ title }) => title)} />
          </div>
        </li>
      ))}
      {standard.minors.map((minor) => (
        <li key={minor.code}>
          <h3>
            {minor.title}
            {minor.counts !== null && <span className="standard-kind muted">{counted(minor.counts, 'count')}</span>}
          </h3>
          <div className="standard-checks">
            <div>
              <Points title="At the preparatory command" points={minor.checks.preparatory.map(formatCheck)} />
              <Points title="At the command of execution" points={minor.checks.execution.map(formatCheck)} />
              <Points title="Measured" points={minor.gauges.map(gaugeTitle)} />
            </div>
            <Points title="Faults" points={minor.faults.map(({ title }) => title)} />
          </div>
        </li>
      ))}
    </ol>
  )
}

const formatCheck = ({ title, arm }: { title: string; arm?: string }): string => (arm ? `${title} (${arm})` : title)

function Points({ title, points }: { title: string; points: readonly string[] }) {
  if (points.length === 0) return null
  return (
    <div>
      <h4>{title}</h4>
      <ul>
        {points.map((point) => (
          <li key={point}>{point}</li>
        ))}
      </ul>
    </div>
  )
}
