import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query'
import { useEffect, useState, useSyncExternalStore } from 'react'
import { Link, useLocation } from 'wouter'
import { isolated } from '#calendar/isolate.ts'
import type { Standard } from '#contract/standards/standards.ts'
import {
  changeDraft,
  deleteDraft,
  invalidateStandards,
  noteSaved,
  standardsQuery,
} from '../../api/standards/standards.ts'
import { addressTo, paths } from '../../paths.ts'
import { Button } from '../../ui/button.tsx'
import { ConfirmDialog } from '../../ui/confirm-dialog.tsx'
import { Page } from '../../ui/page.tsx'
import { ComparisonSection } from './comparison-section.tsx'
import { ClashNotice } from './editor/clash-notice.tsx'
import { DraftEditor } from './editor/draft-editor.tsx'
import { createDraftKeeper } from './editor/draft-keeper.ts'
import { keepDraft, leftDraft } from './editor/kept-drafts.ts'
import type { Sheets } from './editor/preview.tsx'
import { PublishSection } from './publish-section.tsx'
import { StandardFiles, saveAsJson } from './standard-files.tsx'
import './standards.css'
import './draft.css'

/** A draft of a standard: written, seen as a grader will have it, compared with the version before, tried out, published or deleted. */
export default function DraftPage({ id, sheets }: { id: string; sheets: Sheets }) {
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
  return <Draft key={draft.id} stored={draft} sheets={sheets} />
}

/** The draft on this page; it is saved as one writes. */
const useDraft = (stored: Standard) => {
  const client = useQueryClient()
  const [keeper] = useState(() =>
    createDraftKeeper(stored, leftDraft(stored.id), {
      keep: (draft) => keepDraft(stored.id, draft),
      send: (body, seen) => changeDraft(stored.id, body, seen),
      onSaved: (saved) => void noteSaved(client, saved),
    }),
  )
  useEffect(
    () => () => {
      void keeper.save()
      keeper.stop()
    },
    [keeper],
  )
  return { keeper, view: useSyncExternalStore(keeper.subscribe, keeper.shown) }
}

function Draft({ stored, sheets }: { stored: Standard; sheets: Sheets }) {
  const { keeper, view } = useDraft(stored)
  const [asking, setAsking] = useState(false)
  const [, navigate] = useLocation()
  const client = useQueryClient()
  const gone = useMutation({
    mutationFn: () => deleteDraft(stored.id),
    onSuccess: async () => {
      keepDraft(stored.id, null)
      navigate(paths.standards)
      await invalidateStandards(client)
    },
  })
  const draft = view.history.present
  const isSaved = view.kept === 'saved'
  return (
    <Page
      title={`${stored.title}, draft`}
      compact
      answer={`Version ${stored.version} of ${isolated(draft.title || stored.title)} is a draft.`}
      why="Nothing is tested by it before it is published; after that it never changes. It is saved as you write."
      controls={
        <>
          <Link href={addressTo(paths.tryDraft, { id: stored.id })}>Practice test on this draft</Link>
          <Link href={addressTo(paths.paper, { id: stored.code, version: stored.version })}>Print it</Link>
          <Button kind="quiet" onClick={() => setAsking(true)}>
            Delete the draft
          </Button>
        </>
      }
    >
      {view.kept === 'clash' && <ClashNotice id={stored.id} keeper={keeper} onSaveFile={() => saveAsJson(draft)} />}
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
      <DraftEditor
        stored={stored}
        view={view}
        keeper={keeper}
        sheets={sheets}
        publish={
          <>
            <ComparisonSection id={stored.id} note={isSaved ? undefined : 'as saved last'} />
            <PublishSection standard={stored} isSaved={isSaved} />
            <StandardFiles id={stored.id} note={isSaved ? undefined : 'as saved last'} />
          </>
        }
      />
    </Page>
  )
}
