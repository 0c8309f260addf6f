/** @jsxImportSource preact */
import type { JSX } from "preact";
import type { Language, PaneSettings } from "../settings";
import type { TemperatureUnit } from "../open-job";
import { useWords } from "../words/words";

/** Language and units of the pane. */
export function SettingsView({ settings, onChange }: { readonly settings: PaneSettings; readonly onChange: (next: PaneSettings) => void }): JSX.Element {
  const words = useWords();
  return (
    <section class="cw-settings" aria-labelledby="cw-settings-heading">
      <h2 id="cw-settings-heading">{words.settings.heading}</h2>
      <Choice<Language>
        legend={words.settings.language}
        name="cw-language"
        value={settings.language}
        options={[
          ["en", "English"],
          ["es", "Español"],
        ]}
        onChange={(language) => onChange({ ...settings, language })}
      />
      <Choice<TemperatureUnit>
        legend={words.settings.temperature}
        name="cw-temperature"
        value={settings.temperatures}
        options={[
          ["°C", "°C"],
          ["°F", "°F"],
        ]}
        onChange={(temperatures) => onChange({ ...settings, temperatures })}
      />
      <p class="cw-meta">{words.settings.kept}</p>
    </section>
  );
}

function Choice<T extends string>({ legend, name, value, options, onChange }: { readonly legend: string; readonly name: string; readonly value: T; readonly options: readonly (readonly [T, string])[]; readonly onChange: (value: T) => void }): JSX.Element {
  return (
    <fieldset class="cw-choice">
      <legend>{legend}</legend>
      {options.map(([option, label]) => (
        <label key={option}>
          <input type="radio" name={name} value={option} checked={option === value} onChange={() => onChange(option)} /> {label}
        </label>
      ))}
    </fieldset>
  );
}
