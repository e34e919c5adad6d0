import { useQuery } from '@tanstack/react-query'
import { useId, useState } from 'react'
import { healthQuery } from '../../api/accounts/session.ts'
import { ownUnitCommands, portBeside } from '../../domain/first-steps/own-unit-command.ts'
import { Button } from '../../ui/button.tsx'
import { Section } from '../../ui/section.tsx'

/** In the demo: how a unit of one's own is started, beside it and without touching it. */
export function OwnUnitPart() {
  const demo = useQuery(healthQuery).data?.demo
  if (!demo) return null
  const { shell, powerShell } = ownUnitCommands(location.port)
  return (
    <Section title="Start your own unit" note="This is the demo; what it holds is invented.">
      <p className="first-steps-own">
        Your unit gets a folder of its own, <b>own-unit</b>, and starts empty. Run one of these where you ran{' '}
        <b>npm start</b>; it prints a link that makes the first account, at port {portBeside(location.port)}. The demo
        can run on or be stopped, and nothing of it comes along. For a PostgreSQL of your own give DATABASE_URL an empty
        database instead of REVIEWSTAND_DATA.
      </p>
      <Command label="Linux and macOS" text={shell} />
      <Command label="Windows PowerShell" text={powerShell} />
    </Section>
  )
}

function Command({ label, text }: { label: string; text: string }) {
  const id = useId()
  const [copied, setCopied] = useState<'yes' | 'no' | null>(null)
  const copy = () =>
    (navigator.clipboard?.writeText(text) ?? Promise.reject(new Error('no clipboard'))).then(
      () => setCopied('yes'),
      () => setCopied('no'),
    )
  return (
    <p className="first-steps-command">
      <label htmlFor={id}>{label}</label>
      <input id={id} readOnly value={text} onFocus={(event) => event.currentTarget.select()} />
      <Button onClick={copy} aria-label={`Copy the command for ${label}`}>
        {copied === 'yes' ? 'Copied' : 'Copy'}
      </Button>
      {copied === 'no' && <span role="alert">Select it and copy it by hand.</span>}
    </p>
  )
}
