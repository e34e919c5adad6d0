import { useRef, useState } from 'react'
import { Link } from 'wouter'
import type { Session } from '#contract/accounts/session.ts'
import { paths } from '../paths.ts'
import { SelectField } from '../ui/field.tsx'
import { chooseTheme, THEMES, type ThemeChoice, themeChosen } from '../ui/theme.ts'
import { SignOut } from './sign-out.tsx'

/** Who is signed in; opens the choice of theme and the way out. */
export function AccountMenu({ session }: { session: Session }) {
  const [open, setOpen] = useState(false)
  const [theme, setTheme] = useState(themeChosen)
  const button = useRef<HTMLButtonElement>(null)

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
          My account
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
        {open && <SignOut accountId={session.accountId} />}
      </div>
    </div>
  )
}
