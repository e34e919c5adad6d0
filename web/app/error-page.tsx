import { Component } from 'react'
import { Link } from 'wouter'
import { paths } from '../paths.ts'
import { Button } from '../ui/button.tsx'
import { Page } from '../ui/page.tsx'
import { MissingPart } from './missing-part.tsx'
import { isMissingPart } from './newer-version.ts'

/** An address that leads nowhere. */
export function NotFound() {
  return (
    <Page
      title="Not found"
      answer="There is no page at this address."
      why={
        <>
          The link may be old or mistyped. Start again from the <Link href={paths.overview}>overview</Link>.
        </>
      }
    />
  )
}

interface State {
  error: Error | null
}

/** Catches what breaks while a page is drawn, so that a way on is left; entered sheets are kept on this device all the same. */
export class ErrorBoundary extends Component<{ children: React.ReactNode }, State> {
  override state: State = { error: null }

  static getDerivedStateFromError(error: Error): State {
    return { error }
  }

  override render() {
    if (!this.state.error) return this.props.children
    if (isMissingPart(this.state.error)) return <MissingPart />
    return (
      <Page
        title="Something went wrong"
        answer="This page stopped working."
        why="Sheets you were entering are kept on this device. Load the page again; if it stops again, tell the administrator what you did last."
        controls={<Button onClick={() => location.reload()}>Load again</Button>}
      />
    )
  }
}
