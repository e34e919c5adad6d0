import type { SheetBody, SheetResult } from '#contract/sheets/sheets.ts'
import type { Standard } from '#contract/standards/standards.ts'
import { formatDrill } from '../../domain/sheets/format-debrief.ts'
import { Section } from '../../ui/section.tsx'
import { Facts } from './facts.tsx'
import { MeasureList } from './measure-list.tsx'
import './debrief.css'

interface DebriefProps {
  standard: Standard
  body: SheetBody
  result: SheetResult
  day: string
  /** Null: the sheet is on this device and not yet sent. */
  receivedAt: string | null
  nameOf: (soldierId: string) => string
  timeZone: string | null
  today: string
  /** What is said about the retest, a line each. */
  retest: readonly string[]
  /** Until when one can appeal, in words; null when that is over. */
  appeal: string | null
}

/** What candidate and sponsor take home of a sheet, stored or still on a phone: one page to show or print. */
export function Debrief({ standard, body, result, retest, appeal, ...facts }: DebriefProps) {
  const isTest = body.purpose === 'test'
  return (
    <>
      <div className="columns debrief">
        <Section title="Measures" note={`GO with ${standard.rule.needed} of ${standard.rule.trials} correct`}>
          {result.ending === 'recorded' ? (
            <p>The paper record held the outcome and no marks.</p>
          ) : (
            <MeasureList standard={standard} body={body} result={result} />
          )}
        </Section>
        <div>
          <Section title="Drill first">
            <ul className="plain-list">
              {formatDrill(standard, body, result).map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </Section>
          {isTest && (
            <Section title="Retest">
              <ul className="plain-list">
                {retest.map((line) => (
                  <li key={line}>{line}</li>
                ))}
              </ul>
            </Section>
          )}
          {isTest && appeal !== null && (
            <Section title="If you do not agree">
              <p>
                Candidate and sponsor can appeal {appeal}: open this sheet in Reviewstand, say what was not right, and
                the training office decides. Or speak to the office.
              </p>
            </Section>
          )}
          <Section title="Sheet">
            <Facts body={body} standardTitle={standard.title} {...facts} />
          </Section>
        </div>
      </div>
      <p className="caution">
        A result is a training record, not a medical or disciplinary finding. Unit procedure comes before this page.
      </p>
    </>
  )
}
