/** What of the host's theme is used; colours are `#rrggbb`. */
export interface HostTheme {
  readonly isDarkTheme?: boolean;
  readonly bodyBackgroundColor?: string;
}

/** Light or dark, as the host is; undefined where it does not say, so that the system's own setting holds. */
export function themeOf(theme: HostTheme | undefined): "light" | "dark" | undefined {
  if (theme?.isDarkTheme !== undefined) return theme.isDarkTheme ? "dark" : "light";
  const channels = /^#?([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i
    .exec(theme?.bodyBackgroundColor ?? "")
    ?.slice(1)
    .map((hex) => Number.parseInt(hex, 16));
  if (!channels) return undefined;
  const [red = 0, green = 0, blue = 0] = channels;
  // Perceived brightness, 0 to 255.
  return 0.299 * red + 0.587 * green + 0.114 * blue < 128 ? "dark" : "light";
}
