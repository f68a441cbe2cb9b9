package app.tankround.chemistry;

import app.tankround.chemistry.calculator.Answer;
import app.tankround.chemistry.calculator.AnswerJson;
import app.tankround.chemistry.calculator.CommandLine;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Calculators on the command line, without server or database: {@code NAME key=value …}, a series as {@code x=1,2,3}.
 * Prints what {@code POST /api/calculations/NAME} answers. Exit status 0 with a calculation, 2 with a refusal, 64 where
 * the name is unknown or an input is missing, unknown or no number.
 */
public final class Calculate {

    private Calculate() {}

    public static void main(String[] words) {
        Answer answer = CommandLine.answer(List.of(words));
        PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);
        out.println(AnswerJson.write(answer.body()));
        System.exit(answer.outcome().exitStatus());
    }
}
