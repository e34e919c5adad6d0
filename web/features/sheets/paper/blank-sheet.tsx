import type { Standard } from '#contract/standards/standards.ts'
import { minimumGo } from '#scoring/minimum.ts'
import { formatBand } from '../../../domain/standards/format-band.ts'
import { inWords } from '../../../words/format-number.ts'

type Gauge = Standard['gauges'][number]

/** A grade sheet to fill in by hand: faults go by their numbers, readings beside their band. One side of a page; the cautions stand on the other. */
export function BlankSheet({ standard, arm }: { standard: Standard; arm: string | undefined }) {
  const { rule, majors, minors } = standard
  const minimum = minimumGo(String(rule.percent), minors.length)
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone it is scrolled, by keys too
    <section className="paper" aria-label="Blank grade sheet" tabIndex={0}>
      <header className="paper-head">
        <h2>{standard.title}: grade sheet</h2>
        <p>{[arm, `version ${standard.version}`].filter(Boolean).join(', ')}</p>
      </header>
      <div className="paper-blanks">
        <Blank name="Candidate" wide />
        <Blank name="Roster number" />
        <Blank name="Grade" />
        <Blank name="Sponsor" wide />
        <Blank name="Grader" wide />
        <Blank name="Day" />
        <Blank name="Started" />
        <Blank name="Finished" />
      </div>
      <p className="paper-rule">
        <Box /> right uniform worn &ensp; <Box /> equipment serviceable &ensp; <Box /> sponsor present &ensp; · &ensp;
        Mark each trial <b>+</b> correct or <b>–</b> incorrect; leave blank what was not called; note faults by their
        numbers, as <b>2: 1, 4</b>. GO with {inWords(rule.needed)} of {inWords(rule.trials)} correct.
      </p>
      <MajorsToMark majors={majors} />
      <MinorsToMark standard={standard} />
      <p className="paper-rule paper-sum">
        Minor measures GO: ______ of {minors.length}; at least {minimum} and every major GO are needed. &ensp; <Box />{' '}
        GO &ensp;
        <Box /> NO-GO &ensp; <Box /> void, because ____________________________
      </p>
      <div className="paper-blanks paper-signed">
        <Blank name="Pauses (cease, resume)" wide />
        <Blank name="Notes" wide />
        <Blank name="Grader, signature" wide />
        <Blank name="Candidate has seen it" wide />
        <Blank name="Sponsor has seen it" wide />
      </div>
      <p className="paper-rule">
        A signature of candidate or sponsor says that they saw the result, not that they agree.
      </p>
    </section>
  )
}

function MajorsToMark({ majors }: { majors: Standard['majors'] }) {
  return (
    <table className="paper-sheet">
      <thead>
        <tr>
          <th>Major measure</th>
          <th>GO</th>
          <th>NO-GO</th>
          <th>After call</th>
          <th>Faults</th>
        </tr>
      </thead>
      {majors.map((major) => (
        <tbody key={major.code}>
          <tr className="paper-marks">
            <td>
              <b>{major.title}</b>
            </td>
            <td className="paper-trial">
              <Box />
            </td>
            <td className="paper-trial">
              <Box />
            </td>
            <td className="paper-write paper-short" />
            <td className="paper-write" />
          </tr>
          <tr>
            <td colSpan={5}>
              <Faults faults={major.faults} />
            </td>
          </tr>
        </tbody>
      ))}
    </table>
  )
}

function MinorsToMark({ standard: { rule, minors, gauges } }: { standard: Standard }) {
  const trials = Array.from({ length: rule.trials }, (_, index) => index + 1)
  return (
    <table className="paper-sheet">
      <thead>
        <tr>
          <th>Minor measure</th>
          {trials.map((trial) => (
            <th key={trial} className="paper-trial">
              {trial}
            </th>
          ))}
          <th>GO</th>
          <th>Faults, by trial</th>
        </tr>
      </thead>
      {minors.map((minor) => (
        <tbody key={minor.code}>
          <tr className="paper-marks">
            <td>
              <b>{minor.title}</b>
            </td>
            {trials.map((trial) => (
              <td key={trial} className="paper-trial">
                <Box />
              </td>
            ))}
            <td className="paper-trial">
              <Box />
            </td>
            <td className="paper-write" />
          </tr>
          <tr>
            <td colSpan={trials.length + 3}>
              <Faults faults={minor.faults} />
              {minor.gauges.map((code) => (
                <Readings key={code} code={code} gauge={gauges.find((known) => known.code === code)} trials={trials} />
              ))}
            </td>
          </tr>
        </tbody>
      ))}
    </table>
  )
}

const Box = () => <span className="paper-box" />

function Blank({ name, wide }: { name: string; wide?: boolean }) {
  return <p className={wide ? 'paper-blank paper-wide' : 'paper-blank'}>{name}</p>
}

/** A line to write the readings of one gauge on, a gap for each trial. */
function Readings({ code, gauge, trials }: { code: string; gauge: Gauge | undefined; trials: readonly number[] }) {
  return (
    <span className="paper-readings">
      {gauge ? `${gauge.title}, ${formatBand(gauge)}` : code}
      {trials.map((trial) => (
        <span key={trial}>{trial}</span>
      ))}
    </span>
  )
}

function Faults({ faults }: { faults: readonly { code: string; title: string }[] }) {
  if (faults.length === 0) return null
  return (
    <span className="paper-faults">
      {faults.map(({ code, title }, index) => (
        <span key={code}>
          <b>{index + 1}</b> {title}{' '}
        </span>
      ))}
    </span>
  )
}
