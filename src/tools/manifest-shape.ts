/**
 * Which elements stand where in an add-in manifest and in which order, from the published schemas
 * ([MS-OWEMXML] and the task-pane override schema 1.0), as far as a workbook add-in needs them.
 *
 * A key is the element, with its `xsi:type` where that decides; a value lists the children in their
 * one valid order: `?` may be missing, `+` once or more, nothing exactly once.
 */
export const NAMESPACES = {
  "http://schemas.microsoft.com/office/appforoffice/1.1": "",
  "http://schemas.microsoft.com/office/taskpaneappversionoverrides": "ov:",
  "http://schemas.microsoft.com/office/officeappbasictypes/1.0": "bt:",
} as const;

export const CHILDREN: Readonly<Record<string, string>> = {
  "OfficeApp(TaskPaneApp)":
    "Id AlternateId? Version ProviderName DefaultLocale DisplayName Description IconUrl HighResolutionIconUrl SupportUrl AppDomains? Hosts Requirements DefaultSettings Permissions ov:VersionOverrides",
  AppDomains: "AppDomain+",
  Hosts: "Host+",
  Requirements: "Sets",
  Sets: "Set+",
  DefaultSettings: "SourceLocation",
  "ov:VersionOverrides(VersionOverridesV1_0)": "ov:Description? ov:Requirements? ov:Hosts ov:Resources",
  "ov:Hosts": "ov:Host+",
  "ov:Host(Workbook)": "ov:Runtimes ov:AllFormFactors ov:DesktopFormFactor",
  "ov:Runtimes": "ov:Runtime",
  "ov:AllFormFactors": "ov:ExtensionPoint",
  "ov:ExtensionPoint(CustomFunctions)": "ov:Script ov:Page ov:Metadata ov:Namespace",
  "ov:Script": "ov:SourceLocation",
  "ov:Page": "ov:SourceLocation",
  "ov:Metadata": "ov:SourceLocation",
  "ov:DesktopFormFactor": "ov:GetStarted? ov:FunctionFile ov:ExtensionPoint+",
  "ov:GetStarted": "ov:Title ov:Description ov:LearnMoreUrl",
  "ov:ExtensionPoint(PrimaryCommandSurface)": "ov:OfficeTab+",
  "ov:OfficeTab": "ov:Group+",
  "ov:Group": "ov:Label ov:Icon ov:Control+",
  "ov:Control(Button)": "ov:Label ov:Supertip ov:Icon ov:Action",
  "ov:Supertip": "ov:Title ov:Description",
  "ov:Icon": "bt:Image+",
  "ov:Action(ShowTaskpane)": "ov:TaskpaneId ov:SourceLocation ov:Title?",
  "ov:Resources": "bt:Images bt:Urls bt:ShortStrings bt:LongStrings",
  "bt:Images": "bt:Image+",
  "bt:Urls": "bt:Url+",
  "bt:ShortStrings": "bt:String+",
  "bt:LongStrings": "bt:String+",
};

/** Which list of resources a `resid` must be found in, by the element that bears it. */
export const RESOURCE_OF: Readonly<Record<string, "Images" | "Urls" | "ShortStrings" | "LongStrings">> = {
  Runtime: "Urls",
  SourceLocation: "Urls",
  FunctionFile: "Urls",
  LearnMoreUrl: "Urls",
  Namespace: "ShortStrings",
  Title: "ShortStrings",
  Label: "ShortStrings",
  Description: "LongStrings",
  Image: "Images",
};

/** Longest text of each list of resources [characters]. */
export const LONGEST = { Images: 2048, Urls: 2048, ShortStrings: 125, LongStrings: 250 } as const;

/** Sets without which the add-in cannot run at all, with the lowest version that serves. */
export const NEEDED_SETS: Readonly<Record<string, string>> = { SharedRuntime: "1.1", CustomFunctionsRuntime: "1.3" };
