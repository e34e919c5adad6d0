import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import type { NewApp, OwnFactors } from '#contract/accounts/factors.ts'
import {
  beginApp,
  makeRecoveryCodes,
  ownFactorsQuery,
  passkeysPossible,
  removeApp,
  removePasskey,
} from '../../../api/accounts/factors.ts'
import { Button } from '../../../ui/button.tsx'
import { ConfirmDialog } from '../../../ui/confirm-dialog.tsx'
import { Failure } from '../../../ui/failure.tsx'
import { AppSetup } from './app-setup.tsx'
import { FactorsTable, type Removable } from './factors-table.tsx'
import { formatFactors } from './format-factors.ts'
import { PasskeyForm } from './passkey-form.tsx'
import { RecoverySheet } from './recovery-sheet.tsx'
import './factors.css'

type Doing = { what: 'nothing' } | { what: 'app'; app: NewApp } | { what: 'passkey' }

interface FactorsPartProps {
  name: string
  today: string
  /** Told once a factor is there and its recovery codes are put away. */
  onReady?: () => void
}

/** One's second factors: set up, listed, taken away; and the recovery codes. */
export function FactorsPart({ name, today, onReady }: FactorsPartProps) {
  const client = useQueryClient()
  const factors = useQuery(ownFactorsQuery)
  const [doing, setDoing] = useState<Doing>({ what: 'nothing' })
  const [codes, setCodes] = useState<string[] | null>(null)
  const [asked, setAsked] = useState<Removable | null>(null)
  const renew = () => client.invalidateQueries({ queryKey: ownFactorsQuery.queryKey })
  const begin = useMutation({ mutationFn: beginApp, onSuccess: (app) => setDoing({ what: 'app', app }) })
  const makeCodes = useMutation({
    mutationFn: makeRecoveryCodes,
    onSuccess: ({ codes }) => {
      setCodes(codes)
      return renew()
    },
  })
  const stop = () => setDoing({ what: 'nothing' })
  const added = (made: string[] | null) => {
    stop()
    if (made) setCodes(made)
    else onReady?.()
    return renew()
  }
  const failed = begin.error ?? makeCodes.error
  if (!factors.data) return factors.error && <Failure error={factors.error} onRetry={factors.refetch} />
  const has = factors.data.app !== null || factors.data.passkeys.length > 0
  return (
    <>
      <p className="factor-intro">{formatFactors(factors.data, today)}</p>
      {codes && (
        <RecoverySheet
          name={name}
          codes={codes}
          onDone={() => {
            setCodes(null)
            onReady?.()
          }}
        />
      )}
      {has && <FactorsTable factors={factors.data} today={today} onRemove={setAsked} />}
      {doing.what === 'app' && <AppSetup app={doing.app} onDone={added} onLeave={stop} />}
      {doing.what === 'passkey' && <PasskeyForm onDone={added} onLeave={stop} />}
      {doing.what === 'nothing' && !codes && (
        <div className="reasoned-form-buttons factor-buttons">
          <Button kind={has ? undefined : 'main'} disabled={begin.isPending} onClick={() => begin.mutate()}>
            {factors.data.app ? 'Set up another app in its place' : 'Set up an authenticator app'}
          </Button>
          {factors.data.passkeysWork && passkeysPossible() && (
            <Button onClick={() => setDoing({ what: 'passkey' })}>Add a passkey</Button>
          )}
          {has && (
            <Button disabled={makeCodes.isPending} onClick={() => makeCodes.mutate()}>
              Make new recovery codes
            </Button>
          )}
        </div>
      )}
      {failed && <Failure error={failed} />}
      {asked && (
        <RemoveDialog removable={asked} factors={factors.data} onRemoved={renew} onClose={() => setAsked(null)} />
      )}
    </>
  )
}

interface RemoveDialogProps {
  removable: Removable
  factors: OwnFactors
  onRemoved: () => Promise<unknown>
  onClose: () => void
}

function RemoveDialog({ removable, factors, onRemoved, onClose }: RemoveDialogProps) {
  const isLast = (factors.app ? 1 : 0) + factors.passkeys.length === 1
  return (
    <ConfirmDialog
      title={removable.kind === 'app' ? 'Take the authenticator app away?' : `Take the passkey ${removable.name} away?`}
      confirm="Take it away"
      onConfirm={async () => {
        await (removable.kind === 'app' ? removeApp() : removePasskey(removable.id))
        await onRemoved()
      }}
      onClose={onClose}
    >
      <p>
        {isLast
          ? 'It is the last one: from then on name and password are enough to sign in, and the recovery codes are gone.'
          : 'It signs nobody in any more. The others and the recovery codes stay.'}
      </p>
    </ConfirmDialog>
  )
}
