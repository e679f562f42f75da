/** Whether the host loads the functions when the workbook opens. Read when it is looked at, as no other view needs it. */
import { useState } from "preact/hooks";
import type { Host } from "../../hosts/host.js";
import { words } from "../../words/words.js";
import { useTools } from "../parts/tools.js";

const said = words.handOver.loading;

export function LoadingSwitch({ loading }: { readonly loading: NonNullable<Host["loading"]> }) {
  const { failed } = useTools();
  const [isOn, tell] = useState<boolean>();

  async function read(): Promise<void> {
    tell(await loading.read());
  }

  async function change(on: boolean): Promise<void> {
    tell(on);
    try {
      await loading.set(on);
    } finally {
      await read();
    }
  }

  return (
    <details
      class="feed-block"
      onToggle={({ currentTarget }) => {
        if (currentTarget.open) read().catch(failed);
      }}
    >
      <summary>{said.title}</summary>
      {isOn !== undefined && (
        <label>
          <input
            type="checkbox"
            checked={isOn}
            onChange={({ currentTarget }) => {
              change(currentTarget.checked).catch(failed);
            }}
          />{" "}
          {said.switch}
        </label>
      )}
      <p class="feed-quiet">{said.about}</p>
    </details>
  );
}
