/** The finished sheet: seen, printed, saved; and the notes themselves, saved as a document. */
import { readReadings, reportBody, reportHtml, SHEET_STYLE } from '@swashtrue/mixing/bench'
import { Download, Printer } from 'lucide-react'
import { useEffect, useMemo, useRef } from 'react'
import { usePage } from '../ui/usePage.ts'
import { documentOf } from './model.ts'
import { useBench, useBenchAnswer } from './useBench.ts'
import { Working } from './Working.tsx'

export function SheetPanel() {
  const record = usePage((state) => state.session.record)
  const items = usePage((state) => state.session.readings)
  const bench = useBench()
  const { answer, ...progress } = useBenchAnswer()
  const document_ = useMemo(() => documentOf(items, bench), [items, bench])
  const input = useMemo(() => {
    const read = readReadings(document_, record)
    const made = new Date().toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' })
    const { diagnosis, plan } = answer?.ok ? answer : {}
    return {
      record,
      made,
      ...(read.ok ? { readings: read.readings } : {}),
      ...(diagnosis ? { diagnosis } : {}),
      ...(plan ? { plan } : {}),
    }
  }, [record, document_, answer])
  const name = record.name.replace(/[^\p{L}\p{N}]+/gu, '-')
  return (
    <section aria-label="The sheet">
      <h2>The sheet to keep</h2>
      <Working {...progress} answer={answer} />
      <div className="bench-foot">
        <button
          type="button"
          className="button strong wide"
          onClick={() => save(`${name}.set-up.html`, 'text/html', reportHtml(input))}
        >
          <Download size={20} aria-hidden /> Save the sheet
        </button>
        <button type="button" className="button wide" onClick={() => print()}>
          <Printer size={20} aria-hidden /> Print it
        </button>
        <button
          type="button"
          className="button wide"
          onClick={() => save(`${name}.readings.json`, 'application/json', JSON.stringify(document_, null, 1))}
        >
          <Download size={20} aria-hidden /> Save the notes as a document
        </button>
      </div>
      <SheetView html={reportBody(input)} />
    </section>
  )
}

function save(name: string, type: string, text: string): void {
  const link = document.createElement('a')
  link.href = URL.createObjectURL(new Blob([text], { type }))
  link.download = name
  link.click()
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000)
}

/** The sheet's own style stays its own: in a shadow root, by a constructed style sheet, which the content policy allows. */
function SheetView({ html }: { html: string }) {
  const host = useRef<HTMLDivElement>(null)
  useEffect(() => {
    const element = host.current
    if (!element) return
    const root = element.shadowRoot ?? element.attachShadow({ mode: 'open' })
    const style = new CSSStyleSheet()
    style.replaceSync(SHEET_STYLE.replace(/@page[^}]*}/, ''))
    root.adoptedStyleSheets = [style]
    root.innerHTML = html
  }, [html])
  // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls sideways in it, by keys too
  return <div ref={host} className="sheet-view" tabIndex={0} role="group" aria-label="The sheet, as it is printed" />
}
