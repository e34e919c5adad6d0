import type { Standard } from '#contract/standards/standards.ts'
import { cautionsOnce } from '../../../domain/sheets/format-cautions.ts'
import { formatCall } from '../../../domain/standards/format-call.ts'
import { counted } from '../../../words/format-number.ts'

/** Every call in its order, with where it starts and what follows it. */
export function CallList({ standard, arm }: { standard: Standard; arm: string | undefined }) {
  const titles = new Map(standard.minors.map(({ code, title }) => [code, title]))
  const cadences = [...new Set(standard.calls.flatMap(({ cadence }) => cadence ?? []))]
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone it is scrolled, by keys too
    <section className="paper" aria-label="Call list" tabIndex={0}>
      <header className="paper-head">
        <h2>{standard.title}: call list</h2>
        <p>{[arm, `version ${standard.version}`, counted(standard.calls.length, 'call')].filter(Boolean).join(', ')}</p>
      </header>
      <p className="paper-rule">
        Each call: the preparatory command, look; “stand by”; the preparatory command again, the command of execution,
        look; then what finishes it. A bar joins calls that run on without a break.
      </p>
      {cadences.length > 0 && (
        <p className="paper-rule">
          {cadences.map((cadence, index) => (
            <span key={cadence} className="paper-cadence">
              <b>{letter(index)}</b> {cadence}
            </span>
          ))}
        </p>
      )}
      <table className="paper-calls">
        <thead>
          <tr>
            <th>Call</th>
            <th>From</th>
            <th>Command</th>
            <th>Measure, trial</th>
            <th>Then</th>
          </tr>
        </thead>
        <tbody>
          {standard.calls.map((call, index) => (
            <tr key={`${call.measure} ${call.trial}`} className={call.unbroken ? 'paper-unbroken' : undefined}>
              <td>{index + 1}</td>
              <td>{call.from}</td>
              <td>
                <b>{formatCall(call, arm) || titles.get(call.measure)}</b>
                {call.cadence && ` (${letter(cadences.indexOf(call.cadence))})`}
              </td>
              <td>
                {titles.get(call.measure) ?? call.measure}, {call.trial}
              </td>
              <td>{[...(call.steps ?? []), ...(call.finish ?? [])].join('; ')}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Cautions standard={standard} />
    </section>
  )
}

/** What a cadence is called in the list: the same few come again and again, and are written out once above it. */
const letter = (index: number): string => String.fromCodePoint(0x61 + index)

/** What must not go unread before a blade is drawn. */
function Cautions({ standard }: { standard: Standard }) {
  return (
    <ul className="paper-cautions">
      {cautionsOnce([standard]).map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  )
}
