/**
 * The window into the scene: the fiber package drives three's renderer, on demand, so that a still page draws nothing.
 * In a frame the store is read and matrices are written; React is not involved.
 */
import { createRoot, type ReconcilerRoot, useFrame, useThree } from '@react-three/fiber'
import { useEffect, useMemo, useRef, useState } from 'react'
import type { PerspectiveCamera, WebGLRenderer } from 'three'
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js'
import type { PageStore } from '../state/store.ts'
import { usePageStore } from '../ui/usePage.ts'
import { fit, VIEWS } from './camera.ts'
import { frameMeter } from './frame-meter.ts'
import { handIn } from './hand.ts'
import { StageSet } from './stage-set.ts'

const darkQuery = '(prefers-color-scheme: dark)'

function isDark(store: PageStore): boolean {
  const { theme } = store.getState().view
  return theme === 'system' ? matchMedia(darkQuery).matches : theme === 'dark'
}

function Contents({ store }: { store: PageStore }) {
  const invalidate = useThree((three) => three.invalidate)
  const gl = useThree((three) => three.gl) as WebGLRenderer
  const scene = useThree((three) => three.scene)
  const camera = useThree((three) => three.camera) as PerspectiveCamera
  const stage = useMemo(() => new StageSet(isDark(store)), [store])
  const refit = useRef(true)
  const controls = useRef<OrbitControls>(undefined)
  // A view that the hand has turned is left alone; one that it has not is fitted again when the window changes.
  const moved3D = useRef(false)
  const aspect = useThree((three) => three.viewport.aspect)
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of the aspect that matters
  useEffect(() => {
    if (!moved3D.current) refit.current = true
    invalidate()
  }, [aspect, invalidate])

  useEffect(() => {
    const orbit = new OrbitControls(camera, gl.domElement)
    orbit.enablePan = false
    orbit.minDistance = 120
    orbit.maxDistance = 1800
    const moved = (): void => invalidate()
    orbit.addEventListener('change', moved)
    controls.current = orbit
    orbit.addEventListener('start', () => {
      moved3D.current = true
    })
    const release = handIn(gl.domElement, camera, stage, {
      rig: () => store.getState().session.record,
      rotorDeg: () => store.getState().session.stand.rotorDeg,
      turnTo: (rotorDeg) => store.getState().setStand({ rotorDeg }, 'turned the rotor', 'rotor'),
      letGo: () => store.getState().endGesture(),
      tapped: (path) => store.getState().show({ part: path, ...(path === '/rotor' ? {} : { workspace: 'mis-set' }) }),
      holdCamera: (held) => {
        orbit.enabled = !held
      },
    })
    scene.add(stage.group)
    window.swashtrueScene = { stage, camera, meter: frameMeter }
    invalidate()
    return () => {
      release()
      orbit.dispose()
      scene.remove(stage.group)
    }
  }, [store, camera, gl, scene, stage, invalidate])

  useEffect(() => {
    const query = matchMedia(darkQuery)
    const recolour = (): void => {
      stage.setDark(isDark(store))
      invalidate()
    }
    query.addEventListener('change', recolour)
    const unsubscribe = store.subscribe((state, before) => {
      if (state.view.theme !== before.view.theme) recolour()
      if (state.view.look !== before.view.look || state.session.record !== before.session.record) {
        refit.current = true
        moved3D.current = false
      }
      invalidate()
    })
    return () => {
      query.removeEventListener('change', recolour)
      unsubscribe()
    }
  }, [store, stage, invalidate])

  useFrame(() => {
    frameMeter.begin()
    const state = store.getState()
    stage.update(state)
    const bench = stage.machine?.bench
    if (refit.current && bench && controls.current) {
      refit.current = false
      const view = VIEWS.find(({ id }) => id === state.view.look) ?? VIEWS[0]
      if (view) fit(camera, view, state.session.record, bench, controls.current.target)
      controls.current.update()
    }
    frameMeter.end()
  })
  return null
}

export function SceneView() {
  const store = usePageStore()
  const holder = useRef<HTMLDivElement>(null)
  const [failed, setFailed] = useState(false)

  useEffect(() => {
    const place = holder.current
    if (!place) return
    const canvas = document.createElement('canvas')
    canvas.setAttribute('role', 'img')
    canvas.setAttribute(
      'aria-label',
      'The machine in three dimensions. Drag to look from elsewhere, pinch or scroll to come nearer.',
    )
    place.append(canvas)
    const drawnBy = renderer()
    if (drawnBy === 'none') {
      setFailed(true)
      canvas.remove()
      return
    }
    const card = drawnBy === 'card'
    let root: ReconcilerRoot<HTMLCanvasElement> | undefined = createRoot(canvas)
    const configure = async (): Promise<void> => {
      const { width, height } = place.getBoundingClientRect()
      if (!root || width === 0 || height === 0) return
      await root.configure({
        frameloop: 'demand',
        flat: true,
        dpr: card ? Math.min(window.devicePixelRatio, 2) : 1,
        size: { width, height, top: 0, left: 0 },
        camera: { fov: 26, near: 5, far: 6000 },
        gl: { antialias: card, alpha: true },
      })
      root?.render(<Contents store={store} />)
    }
    void configure()
    const observer = new ResizeObserver(() => void configure())
    observer.observe(place)
    return () => {
      observer.disconnect()
      root?.unmount()
      root = undefined
      canvas.remove()
    }
  }, [store])

  return (
    <div ref={holder} className="canvas-holder">
      {failed && (
        <p className="no-3d">
          This browser shows no 3D (WebGL is off or missing). The numbers, plots and sentences below work all the same.
        </p>
      )}
    </div>
  )
}

/** What draws: a graphics card, the processor in its place (coarser then, so that it still moves), or nothing. */
function renderer(): 'card' | 'processor' | 'none' {
  const gl = document.createElement('canvas').getContext('webgl2')
  if (!gl) return 'none'
  const name = String(gl.getParameter(gl.getExtension('WEBGL_debug_renderer_info')?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER))
  gl.getExtension('WEBGL_lose_context')?.loseContext()
  return /swiftshader|llvmpipe|software|basic render/i.test(name) ? 'processor' : 'card'
}

declare global {
  interface Window {
    /** for tests in the browser: the drawn scene and the measured script time a frame */
    swashtrueScene?: { stage: StageSet; camera: PerspectiveCamera; meter: typeof frameMeter }
  }
}
