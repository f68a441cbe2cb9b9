package app.tankround.accounts.exchange;

import java.util.List;

/**
 * Why an import was refused, with the place.
 *
 * @param line line of the file, from 1; 0 for the file as a whole
 * @param column the column's name, empty for the row as a whole
 */
public record ImportProblem(String file, int line, String column, String code, List<Object> args) {}
