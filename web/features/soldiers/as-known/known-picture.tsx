import { Link } from 'wouter'
import type { AsKnown } from '#contract/soldiers/as-known.ts'
import type { Sayings } from '../../../domain/soldiers/format-entered.ts'
import { addressTo, paths } from '../../../paths.ts'
import { Section } from '../../../ui/section.tsx'
import { StateLine, StateList } from '../../../ui/state-list.tsx'
import { StateWord } from '../../../ui/state-mark.tsx'
import { formatSheetState, standingLines } from './picture-lines.ts'

interface KnownPictureProps {
  title: string
  note: string
  picture: AsKnown['known']
  /** What the other picture has: what differs is marked. */
  other: AsKnown['known']
  asOf: string
  say: Sayings
}

/** One of the two pictures: certifications with their open retests, and the tests behind them. */
export function KnownPicture({ title, note, picture, other, asOf, say }: KnownPictureProps) {
  const differs = (one: unknown, list: readonly unknown[]) =>
    !list.some((candidate) => JSON.stringify(candidate) === JSON.stringify(one))
  return (
    <Section title={title} note={note}>
      {picture.certifications.length === 0 && <p className="muted">No certification had begun by then.</p>}
      <StateList>
        {picture.certifications.map((standing) => (
          <StateLine key={standing.certification} lines={standingLines(standing, asOf, say)}>
            <b>{say.certification(standing.certification)}</b>
            {differs(standing, other.certifications) && <Otherwise />}
            <StateWord state={standing.status} />
          </StateLine>
        ))}
      </StateList>
      <h3 className="known-tests">Tests</h3>
      {picture.sheets.length === 0 && <p className="muted">No test was on record.</p>}
      <StateList>
        {picture.sheets.map((sheet) => (
          <StateLine key={sheet.id}>
            <Link href={addressTo(paths.sheet, { id: sheet.id })}>
              {say.day(sheet.day)}, {say.standard(sheet.standard)}
            </Link>
            {differs(sheet, other.sheets) && <Otherwise />}
            <span className="state-list-end">{formatSheetState(sheet)}</span>
          </StateLine>
        ))}
      </StateList>
    </Section>
  )
}

const Otherwise = () => <span className="known-otherwise">differs</span>
