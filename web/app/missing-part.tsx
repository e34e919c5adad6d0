import { useEffect, useState } from 'react'
import { Button } from '../ui/button.tsx'
import { Page } from '../ui/page.tsx'
import { compareVersions, reloadFor, type Version } from './newer-version.ts'

/** So long the words stand before the page is loaded anew. */
const TO_READ_MS = 1_500

const SAYS: Record<Version['kind'] | 'asking', { answer: string; why: string }> = {
  asking: { answer: 'This page is being loaded.', why: 'One moment.' },
  newer: {
    answer: 'Reviewstand was updated while this page was open.',
    why: 'The newer version is loaded now. Sheets you were entering are kept on this device, and what you typed on this page is put back into its form.',
  },
  same: {
    answer: 'Part of this page did not load.',
    why: 'Load the page again; if that does not help, tell the administrator.',
  },
  'no-answer': {
    answer: 'The server does not answer, so this page cannot be loaded.',
    why: 'What you entered is kept on this device. Try again when the network is back.',
  },
}

/** In place of a page of which a part could not be loaded: after an update the newer version comes by itself. */
export function MissingPart() {
  const [version, setVersion] = useState<Version | null>(null)
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined
    let left = false
    compareVersions().then((found) => {
      if (left) return
      setVersion(found)
      if (found.kind === 'newer') timer = setTimeout(() => reloadFor(found.entry), TO_READ_MS)
    })
    return () => {
      left = true
      clearTimeout(timer)
    }
  }, [])
  const { answer, why } = SAYS[version?.kind ?? 'asking']
  return (
    <Page
      title="Reviewstand"
      answer={<span role="status">{answer}</span>}
      why={why}
      controls={<Button onClick={() => location.reload()}>Load again</Button>}
    />
  )
}
