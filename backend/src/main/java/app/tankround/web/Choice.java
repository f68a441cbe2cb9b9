package app.tankround.web;

/**
 * One option of a select field.
 *
 * @param value what the form sends
 * @param text what the person reads
 */
public record Choice(String value, String text) {}
