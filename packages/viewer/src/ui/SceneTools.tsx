/** Under the scene: where to look from, and the caution that stands wherever a real machine is meant. */
import { VIEWS } from '../scene/camera.ts'
import { useActions, usePage } from './usePage.ts'

export function SceneTools() {
  const actions = useActions()
  const look = usePage((state) => state.view.look)
  const tail = usePage((state) => state.session.record.tail !== undefined)
  return (
    <div className="scene-foot">
      <label className="looks">
        <span className="visually-hidden">Look from</span>
        <select value={look} onChange={(event) => actions.show({ look: event.target.value })}>
          {VIEWS.filter(({ id }) => tail || id !== 'rudder').map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </select>
      </label>
    </div>
  )
}
