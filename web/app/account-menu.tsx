import { useMutation, useQueryClient } from '@tanstack/react-query'
import { useRef, useState } from 'react'
import { Link } from 'wouter'
import type { Session } from '#contract/session.ts'
import { setSession, signOut } from '../api/session.ts'
import { countUnsent } from '../features/enter/entry-keys.ts'
import { Button } from '../ui/button.tsx'
import { Failure } from '../ui/failure.tsx'
import { SelectField } from '../ui/field.tsx'
import { chooseTheme, THEMES, type ThemeChoice, themeChosen } from '../ui/theme.ts'
import { counted, plural } from '../words/say-number.ts'
import { paths } from './paths.ts'

/** Who is signed in; opens the choice of theme and the way out. */
export function AccountMenu({ session }: { session: Session }) {
  const [open, setOpen] = useState(false)
  const unsent = open ? countUnsent(session.accountId) : 0
  const [theme, setTheme] = useState(themeChosen)
  const button = useRef<HTMLButtonElement>(null)
  const client = useQueryClient()
  const leave = useMutation({
    mutationFn: signOut,
    onSuccess: () => setSession(client, null),
  })

  const onKeyDown = (event: React.KeyboardEvent) => {
    if (event.key !== 'Escape' || !open) return
    event.stopPropagation()
    setOpen(false)
    button.current?.focus()
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: Escape closes what its button opened
    <div className="account" onKeyDown={onKeyDown}>
      <button
        ref={button}
        type="button"
        className="account-button"
        aria-expanded={open}
        aria-controls="account"
        onClick={() => setOpen(!open)}
      >
        <bdi>{session.name}</bdi>
      </button>
      <div id="account" className="account-panel" hidden={!open}>
        <p className="muted small">Signed in as {session.roles.join(', ') || 'soldier'}</p>
        <Link href={paths.account} onClick={() => setOpen(false)}>
          Own account
        </Link>
        <SelectField
          label="Theme"
          value={theme}
          onChange={(event) => {
            const choice = event.target.value as ThemeChoice
            chooseTheme(choice)
            setTheme(choice)
          }}
        >
          {THEMES.map(({ choice, text }) => (
            <option key={choice} value={choice}>
              {text}
            </option>
          ))}
        </SelectField>
        {unsent > 0 && (
          <p className="small">
            {counted(unsent, 'sheet')} on this device {plural(unsent, 'is', 'are')} not sent yet, and{' '}
            {plural(unsent, 'stays', 'stay')} here until you sign in again.
          </p>
        )}
        <Button onClick={() => leave.mutate()} disabled={leave.isPending}>
          Sign out
        </Button>
        {leave.error && <Failure error={leave.error} />}
      </div>
    </div>
  )
}
