import { useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { Session } from '#contract/accounts/session.ts'
import type { ScriptToken } from '#contract/accounts/tokens.ts'
import type { Unit } from '#contract/soldiers/soldiers.ts'
import { ownTokensQuery, revokeToken } from '../../../api/accounts/tokens.ts'
import { rightNow } from '../../../api/server-clock.ts'
import { formatScopes } from '../../../domain/accounts/token-scopes.ts'
import { fullUnitName } from '../../../domain/soldiers/unit-tree.ts'
import { dayFact, momentFact } from '../../../parts/readiness/facts.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { TextField } from '../../../ui/field.tsx'
import { Notice } from '../../../ui/notice.tsx'
import { Table } from '../../../ui/table.tsx'
import { formatDay } from '../../../words/format-day.ts'
import { formatMoment } from '../../../words/format-moment.ts'
import { TokenForm } from './token-form.tsx'

interface TokensPartProps {
  account: Session
  units: readonly Unit[]
  today: string
}

/** One's tokens for scripts: what each may do and when it was last used; made, shown once, and revoked here. */
export function TokensPart({ account, units, today }: TokensPartProps) {
  const client = useQueryClient()
  const tokens = useQuery(ownTokensQuery)
  const [isMaking, setMaking] = useState(false)
  const [made, setMade] = useState<{ name: string; token: string } | null>(null)
  const [asked, setAsked] = useState<ScriptToken | null>(null)
  const renew = () => client.invalidateQueries({ queryKey: ownTokensQuery.queryKey })
  return (
    <>
      <p className="account-token-intro">
        A script of your own, such as one that fetches tomorrow’s roster, shows a token instead of signing in. It can
        never do more than you.
      </p>
      {made && <NewToken {...made} onDone={() => setMade(null)} />}
      {tokens.data && tokens.data.length > 0 && (
        <TokenTable tokens={tokens.data} units={units} today={today} onRevoke={setAsked} />
      )}
      {tokens.error && !tokens.data && <Failure error={tokens.error} onRetry={tokens.refetch} />}
      {isMaking ? (
        <TokenForm
          account={account}
          units={units}
          onLeave={() => setMaking(false)}
          onMade={(token) => {
            setMade(token)
            setMaking(false)
          }}
        />
      ) : (
        <p className="account-everywhere">
          <Button onClick={() => setMaking(true)}>Make a token</Button>
        </p>
      )}
      {asked && (
        <ConfirmDialog
          title={`Revoke the token ${asked.name}?`}
          confirm="Revoke it"
          onConfirm={async () => {
            await revokeToken(asked.id)
            if (made?.name === asked.name) setMade(null)
            await renew()
          }}
          onClose={() => setAsked(null)}
        >
          <p>Scripts that use it are refused at once. It cannot be brought back; make a new one instead.</p>
        </ConfirmDialog>
      )}
    </>
  )
}

/** The new token, which nobody sees again. */
function NewToken({ name, token, onDone }: { name: string; token: string; onDone: () => void }) {
  return (
    <Notice kind="good">
      <TextField
        className="account-token"
        label={`Token ${name}`}
        readOnly
        value={token}
        hint="Copy it now to where the script keeps its secrets. It is not shown again."
        onFocus={(event) => event.target.select()}
      />
      <div className="reasoned-form-buttons">
        <Button onClick={() => navigator.clipboard.writeText(token)}>Copy</Button>
        <Button onClick={onDone}>I have it</Button>
      </div>
    </Notice>
  )
}

interface TokenTableProps {
  tokens: readonly ScriptToken[]
  units: readonly Unit[]
  today: string
  onRevoke: (token: ScriptToken) => void
}

function TokenTable({ tokens, units, today, onRevoke }: TokenTableProps) {
  return (
    <Table<ScriptToken>
      caption="Tokens for scripts"
      rows={tokens}
      rowKey={({ id }) => id}
      columns={[
        {
          head: 'Token',
          cell: ({ name }) => (
            <b>
              <bdi>{name}</bdi>
            </b>
          ),
        },
        { head: 'Allowed to', cell: ({ scopes }) => formatScopes(scopes) },
        { head: 'Unit', cell: ({ unitId }) => (unitId ? fullUnitName(units, unitId) : 'As far as you do') },
        {
          head: 'Last used',
          facts: [dayFact('Last used', ({ lastUsedOn }) => lastUsedOn)],
          tight: true,
          cell: ({ lastUsedOn }) => (lastUsedOn ? formatDay(lastUsedOn, today) : 'Never'),
        },
        {
          head: 'Until',
          facts: [momentFact('Until', ({ expiresAt }) => expiresAt)],
          tight: true,
          cell: ({ expiresAt }) =>
            Date.parse(expiresAt) <= rightNow().getTime() ? 'Expired' : formatMoment(expiresAt, today),
        },
        {
          head: 'Revoke',
          facts: [],
          bare: true,
          cell: (token) => (
            <Button kind="quiet" aria-label={`Revoke: ${token.name}`} onClick={() => onRevoke(token)}>
              Revoke
            </Button>
          ),
        },
      ]}
    />
  )
}
