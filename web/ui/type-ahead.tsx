import { useId, useState } from 'react'
import { Field } from './field.tsx'
import './type-ahead.css'

export interface Suggestion {
  id: string
  text: string
  note?: string
}

interface TypeAheadProps {
  label: string
  /** What is in the field; picking puts the suggestion's text there. */
  text: string
  onText: (text: string) => void
  suggestions: readonly Suggestion[]
  onPick: (suggestion: Suggestion) => void
  /** One of the suggestions is chosen and the text is its own. */
  picked: boolean
  /** The suggestions are still those of an earlier text; none of them is taken by a key. */
  searching?: boolean
  /** Enter or Tab while searching: the writer was faster than the list. */
  onEarly?: () => void
  error?: string | null
  hint?: string
  autoFocus?: boolean
  disabled?: boolean
  className?: string
}

/** A field that suggests while one types. Enter or Tab takes the marked suggestion, the arrows move the mark, Escape closes. */
export function TypeAhead(props: TypeAheadProps) {
  const { label, text, onText, suggestions, onPick, picked, searching, error, hint, className } = props
  const list = useId()
  const [focused, setFocused] = useState(false)
  const [closed, setClosed] = useState(false)
  const [active, setActive] = useState(0)
  const open = focused && !closed && !picked && text.trim() !== ''
  const marked = searching ? undefined : suggestions[Math.min(active, suggestions.length - 1)]

  const pick = (suggestion: Suggestion) => {
    onPick(suggestion)
    setActive(0)
  }
  const onKeyDown = (event: React.KeyboardEvent<HTMLInputElement>) => {
    if (!open) return
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
    if (step) {
      event.preventDefault()
      setActive(Math.max(0, Math.min(suggestions.length - 1, active + step)))
    } else if (event.key === 'Escape') {
      setClosed(true)
    } else if (event.key === 'Enter' || (event.key === 'Tab' && !event.shiftKey)) {
      if (event.key === 'Enter') event.preventDefault()
      if (marked) pick(marked)
      else if (searching) props.onEarly?.()
    }
  }

  return (
    <Field label={label} error={error} hint={hint} className={`type-ahead ${className ?? ''}`}>
      {(id, described) => (
        <>
          <input
            id={id}
            role="combobox"
            aria-expanded={open}
            aria-controls={open ? list : undefined}
            aria-autocomplete="list"
            aria-activedescendant={open && marked ? `${list}-${marked.id}` : undefined}
            aria-describedby={described}
            aria-invalid={error ? true : undefined}
            autoComplete="off"
            spellCheck={false}
            // biome-ignore lint/a11y/noAutofocus: on pages whose one purpose is to fill in this field
            autoFocus={props.autoFocus}
            disabled={props.disabled}
            value={text}
            onChange={(event) => {
              onText(event.target.value)
              setClosed(false)
              setActive(0)
            }}
            onFocus={() => setFocused(true)}
            onBlur={() => setFocused(false)}
            onKeyDown={onKeyDown}
          />
          {open && (
            <div className="type-ahead-list">
              <div id={list} role="listbox" aria-label={label}>
                {suggestions.map((suggestion) => (
                  // biome-ignore lint/a11y/useKeyWithClickEvents: the keys are handled by the combobox
                  <div
                    key={suggestion.id}
                    id={`${list}-${suggestion.id}`}
                    role="option"
                    tabIndex={-1}
                    aria-selected={suggestion === marked}
                    onMouseDown={(event) => event.preventDefault()}
                    onClick={() => pick(suggestion)}
                  >
                    <bdi>{suggestion.text}</bdi> {suggestion.note && <span>{suggestion.note}</span>}
                  </div>
                ))}
              </div>
              {suggestions.length === 0 && (
                <p>{searching ? 'Searching' : 'Nobody found. Try the roster number or the start of the name.'}</p>
              )}
            </div>
          )}
        </>
      )}
    </Field>
  )
}
