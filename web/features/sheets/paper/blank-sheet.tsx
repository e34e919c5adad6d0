import type { Standard } from '#contract/standards/standards.ts'
import { minimumGo } from '#scoring/minimum.ts'
import { sayBand } from '../../../domain/standards/say-band.ts'
import { inWords } from '../../../words/say-number.ts'
import { Cautions } from './call-list.tsx'

/** A grade sheet to fill in by hand: faults go by their numbers, readings beside their band. */
export function BlankSheet({ standard, arm }: { standard: Standard; arm: string | undefined }) {
  const { rule, majors, minors } = standard
  const trials = Array.from({ length: rule.trials }, (_, index) => index + 1)
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
        Mark each trial <b>+</b> correct or <b>–</b> incorrect; leave blank what was not called. GO with{' '}
        {inWords(rule.needed)} of {inWords(rule.trials)} correct.
      </p>
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
        <tbody>
          {majors.map((major) => (
            <tr key={major.code}>
              <td>
                <b>{major.title}</b>
                <Faults faults={major.faults} />
              </td>
              <td>
                <Box />
              </td>
              <td>
                <Box />
              </td>
              <td className="paper-write" />
              <td className="paper-write" />
            </tr>
          ))}
        </tbody>
      </table>
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
            <th>Readings, by trial</th>
          </tr>
        </thead>
        <tbody>
          {minors.map((minor) => (
            <tr key={minor.code}>
              <td>
                <b>{minor.title}</b>
                <Faults faults={minor.faults} />
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
              <td className="paper-readings">
                {minor.gauges.map((code) => {
                  const gauge = standard.gauges.find((known) => known.code === code)
                  return (
                    <p key={code}>
                      {gauge?.title ?? code}
                      {gauge && `, ${sayBand(gauge)}`}
                      <span className="paper-lines">
                        {trials.map((trial) => (
                          <span key={trial}>{trial}</span>
                        ))}
                      </span>
                    </p>
                  )
                })}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="paper-rule paper-sum">
        Minor measures GO: ______ of {minors.length}; at least {minimum} and every major GO are needed. &ensp; <Box />{' '}
        GO &ensp;
        <Box /> NO-GO &ensp; <Box /> void, because ____________________________
      </p>
      <div className="paper-blanks">
        <Blank name="Pauses (cease, resume)" wide />
        <Blank name="Notes" wide />
        <Blank name="Grader, signature" wide />
        <Blank name="Candidate has seen it" wide />
        <Blank name="Sponsor has seen it" wide />
      </div>
      <p className="paper-rule">
        A signature of candidate or sponsor says that they saw the result, not that they agree.
      </p>
      <Cautions standard={standard} />
    </section>
  )
}

const Box = () => <span className="paper-box" />

function Blank({ name, wide }: { name: string; wide?: boolean }) {
  return <p className={wide ? 'paper-blank paper-wide' : 'paper-blank'}>{name}</p>
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
