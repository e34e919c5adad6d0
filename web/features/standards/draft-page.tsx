import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useState } from 'react'
import { Link, useLocation } from 'wouter'
import type { Standard, StandardBody } from '#contract/standards/standards.ts'
import { ApiError } from '../../api/errors.ts'
import { changeDraft, deleteDraft, forgetStandards, standardsQuery } from '../../api/standards/standards.ts'
import { sayPlace } from '../../domain/standards/say-place.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Failure } from '../../ui/failure.tsx'
import { Notice } from '../../ui/notice.tsx'
import { Page } from '../../ui/page.tsx'
import { ComparisonSection } from './comparison-section.tsx'
import { DraftEditor } from './draft-editor.tsx'
import { PublishSection } from './publish-section.tsx'
import './standards.css'
import './draft.css'

/** A draft of a standard: changed, compared with the version before, tried out, published or deleted. */
export default function DraftPage({ id }: { id: string }) {
  const query = useQuery(standardsQuery)
  const draft = query.data?.find((one) => one.id === id)
  if (!draft || draft.publishedAt) {
    return (
      <Page
        title="Draft"
        answer={
          query.data && (draft ? 'This version is published and stays as it is.' : 'There is no such draft here.')
        }
        why={query.data && <Link href={addressTo(paths.standard, { id: draft?.code ?? '' })}>To the standard</Link>}
        error={query.error}
        onRetry={query.refetch}
      />
    )
  }
  return <Draft key={draft.id} stored={draft} />
}

const bodyOf = ({ id: _id, publishedAt: _at, ...body }: Standard): StandardBody => body

function Draft({ stored }: { stored: Standard }) {
  const [draft, setDraft] = useState<StandardBody>(() => bodyOf(stored))
  const [asking, setAsking] = useState(false)
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const save = useMutation({
    mutationFn: () => changeDraft(stored.id, draft),
    onSuccess: () => forgetStandards(client),
  })
  const gone = useMutation({
    mutationFn: () => deleteDraft(stored.id),
    onSuccess: async () => {
      navigate(paths.standards)
      await forgetStandards(client)
    },
  })
  const isSaved = JSON.stringify(draft) === JSON.stringify(bodyOf(stored))
  const wrong = save.error instanceof ApiError ? save.error.items : []
  return (
    <Page
      title={`${stored.title}, draft`}
      answer={`Version ${stored.version} of ${stored.title} is a draft.`}
      why="Nothing is tested by it before it is published, and then it stays as it is for ever."
      controls={
        <>
          <Button kind="main" disabled={isSaved || save.isPending} onClick={() => save.mutate()}>
            {isSaved ? 'Saved' : 'Save the draft'}
          </Button>
          <Button onClick={() => setAsking(true)}>Delete the draft</Button>
        </>
      }
    >
      {save.error && wrong.length === 0 && <Failure error={save.error} />}
      {wrong.length > 0 && (
        <Notice kind="bad">
          <p>The draft is not saved. Put this right first:</p>
          <ul>
            {wrong.map(({ pointer, detail }) => (
              <li key={pointer + detail}>{[sayPlace(draft, pointer), detail].filter(Boolean).join(': ')}</li>
            ))}
          </ul>
        </Notice>
      )}
      {asking && (
        <ConfirmDialog
          title="Delete the draft?"
          confirm="Delete it"
          onConfirm={gone.mutateAsync}
          onClose={() => setAsking(false)}
        >
          <p>Nothing was tested by it. What was changed in it is lost.</p>
        </ConfirmDialog>
      )}
      <DraftEditor draft={draft} onDraft={setDraft} />
      <ComparisonSection id={stored.id} note={isSaved ? undefined : 'as saved last'} />
      <PublishSection standard={stored} isSaved={isSaved} />
    </Page>
  )
}
