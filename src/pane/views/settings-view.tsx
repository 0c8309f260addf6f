/** @jsxImportSource preact */
import type { JSX } from "preact";
import { useId, useState } from "preact/hooks";
import { rangeFor, TYPICAL_HANDHELD } from "../../core/judgement/meter";
import {
  METER_FUNCTIONS,
  MOST,
  type Accuracy,
  type Language,
  type OwnMeter,
  type OwnMeterFunction,
  type PaneSettings,
  type RuleName,
} from "../settings";
import type { TemperatureUnit } from "../open-job";
import { useWords } from "../words/words";

/** Language, units, rule and meter of the pane. */
export function SettingsView({
  settings,
  onChange,
}: {
  readonly settings: PaneSettings;
  readonly onChange: (next: PaneSettings) => void;
}): JSX.Element {
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
      <Choice<RuleName>
        legend={words.settings.rule}
        name="cw-rule"
        value={settings.rule}
        options={[
          ["guarded", words.settings.ruleGuarded],
          ["strict", words.settings.ruleStrict],
          ["simple", words.settings.ruleSimple],
        ]}
        onChange={(rule) => onChange({ ...settings, rule })}
      />
      <MeterTable meter={settings.meter} onChange={(meter) => onChange({ ...settings, meter })} />
      <p class="cw-meta">
        {words.settings.scope} {words.settings.kept}
      </p>
    </section>
  );
}

function Choice<T extends string>({
  legend,
  name,
  value,
  options,
  onChange,
}: {
  readonly legend: string;
  readonly name: string;
  readonly value: T;
  readonly options: readonly (readonly [T, string])[];
  readonly onChange: (value: T) => void;
}): JSX.Element {
  return (
    <fieldset class="cw-choice">
      <legend>{legend}</legend>
      {options.map(([option, label]) => (
        <label key={option}>
          <input type="radio" name={name} value={option} checked={option === value} onChange={() => onChange(option)} />{" "}
          {label}
        </label>
      ))}
    </fieldset>
  );
}

/** Accuracy of the shop's own meter, function by function. */
function MeterTable({
  meter,
  onChange,
}: {
  readonly meter: OwnMeter;
  readonly onChange: (meter: OwnMeter) => void;
}): JSX.Element {
  const words = useWords();
  return (
    <fieldset class="cw-choice">
      <legend>{words.settings.meter}</legend>
      <p class="cw-meta">{words.settings.meterAbout}</p>
      <table class="cw-grid-table">
        <thead>
          <tr>
            <th scope="col">{words.settings.meterFunction}</th>
            <th scope="col">{words.settings.percent}</th>
            <th scope="col">{words.settings.counts}</th>
          </tr>
        </thead>
        <tbody>
          {METER_FUNCTIONS.map((of) => (
            <tr key={of}>
              <th scope="row">{words.settings.meters[of]}</th>
              <Figure
                of={of}
                name="percent"
                label={`${words.settings.meters[of]}, ${words.settings.percent}`}
                meter={meter}
                onChange={onChange}
              />
              <Figure
                of={of}
                name="counts"
                label={`${words.settings.meters[of]}, ${words.settings.counts}`}
                meter={meter}
                onChange={onChange}
              />
            </tr>
          ))}
        </tbody>
      </table>
    </fieldset>
  );
}

function Figure({
  of,
  name,
  label,
  meter,
  onChange,
}: {
  readonly of: OwnMeterFunction;
  readonly name: keyof Accuracy;
  readonly label: string;
  readonly meter: OwnMeter;
  readonly onChange: (meter: OwnMeter) => void;
}): JSX.Element {
  const words = useWords();
  const id = useId();
  const [text, setText] = useState(() => String(meter[of]?.[name] ?? ""));
  const [wrong, setWrong] = useState(false);
  const commit = () => {
    const value = text.trim() === "" ? undefined : Number(text.trim().replace(",", "."));
    const bad = value !== undefined && !(value >= 0 && value <= MOST[name]);
    setWrong(bad);
    if (bad) return;
    const { [name]: _before, ...rest } = meter[of] ?? {};
    const accuracy: Accuracy = value === undefined ? rest : { ...rest, [name]: value };
    const { [of]: _old, ...others } = meter;
    onChange(Object.keys(accuracy).length === 0 ? others : { ...others, [of]: accuracy });
  };
  return (
    <td>
      <input
        class="cw-input cw-number"
        type="text"
        inputMode="decimal"
        aria-label={label}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-error` : undefined}
        placeholder={String(rangeFor(TYPICAL_HANDHELD, of, 0)[name])}
        value={text}
        onInput={(event) => setText(event.currentTarget.value)}
        onBlur={commit}
        onKeyDown={(event) => event.key === "Enter" && commit()}
      />
      {wrong ? (
        <p class="cw-error" id={`${id}-error`} role="alert">
          {words.settings.meterRefused(label, MOST[name])}
        </p>
      ) : null}
    </td>
  );
}
