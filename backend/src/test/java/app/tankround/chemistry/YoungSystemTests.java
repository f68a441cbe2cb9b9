package app.tankround.chemistry;

import static org.assertj.core.api.Assertions.assertThat;

import app.tankround.chemistry.Stocking.Answer;
import app.tankround.chemistry.Stocking.Code;
import app.tankround.chemistry.Stocking.Finding;
import app.tankround.chemistry.Stocking.Test;
import app.tankround.chemistry.YoungSystem.Course;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class YoungSystemTests {

    /**
     * Weeks 1 to 6 and the order: FAO Fisheries and Aquaculture Technical Paper 589 and FAO glossary; about two weeks each: a
     * hatchery programme for schools. All read in reprint. The rest: common practice, no source.
     */
    @ParameterizedTest
    @CsvSource({
        "AMMONIA, 1, USUAL",
        "AMMONIA, 6, POSSIBLE",
        "AMMONIA, 10, OVER",
        "NITRITE, 1, POSSIBLE",
        "NITRITE, 4, USUAL",
        "NITRITE, 6, POSSIBLE",
        "NITRITE, 10, OVER",
        "NITRATE, 1, NOT_YET",
        "NITRATE, 5, USUAL",
        "NITRATE, 500, USUAL",
        "BROWN_FILM, 1, NOT_YET",
        "BROWN_FILM, 2, USUAL",
        "BROWN_FILM, 5, OVER",
        "CLOUDY_WATER, 5, OVER",
        "GREEN_FILM, 2, NOT_YET"
    })
    void comesAndGoesByAge(Course course, long week, YoungSystem.Stage stage) {
        assertThat(course.in(week)).isEqualTo(stage);
    }

    @org.junit.jupiter.api.Test
    void isUsualOnlyWithinItsSpreadAndNitriteFollowsAmmonia() {
        assertThat(Arrays.asList(Course.values()))
                .allMatch(course -> course.earliest() <= course.usualFrom() && course.usualUntil() <= course.latest());
        assertThat(Course.NITRITE.usualFrom()).isGreaterThan(Course.AMMONIA.usualUntil());
        assertThat(YoungSystem.isRipe(Course.AMMONIA.latest())).isFalse();
    }

    @org.junit.jupiter.api.Test
    void holdsStockingUntilBothWereBelowDetectionTwiceWithDaysBetweenAndASource() {
        List<Test> tests = new ArrayList<>();
        assertThat(judge(tests, true)).isEqualTo(new Answer(Code.NOT_TESTED, 0));
        tests.add(ammonia(100, Finding.FOUND));
        tests.add(nitrite(100, Finding.FOUND));
        assertThat(judge(tests, true)).isEqualTo(new Answer(Code.FOUND, 100));
        tests.add(ammonia(107, Finding.BELOW_DETECTION));
        tests.add(nitrite(107, Finding.FOUND));
        assertThat(judge(tests, true)).as("nitrite is still there").isEqualTo(new Answer(Code.FOUND, 107));
        clear(tests, 110);
        assertThat(judge(tests, true)).as("once").isEqualTo(new Answer(Code.ONCE, 113));
        clear(tests, 112);
        assertThat(judge(tests, true)).as("not days apart").isEqualTo(new Answer(Code.ONCE, 113));
        clear(tests, 113);
        assertThat(judge(tests, false)).as("nothing makes ammonia").isEqualTo(new Answer(Code.NO_SOURCE, 0));
        assertThat(judge(tests, true)).isEqualTo(new Answer(Code.FEW, 3));
        tests.add(nitrite(120, Finding.FOUND));
        assertThat(judge(tests, true)).as("it came back").isEqualTo(new Answer(Code.FOUND, 120));
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void takesNoCoarseKitAndNoHalfTestAsBelowDetection(boolean coarse) {
        List<Test> tests = new ArrayList<>();
        clear(tests, 100);
        tests.add(ammonia(104, Finding.BELOW_DETECTION));
        if (coarse) {
            tests.add(nitrite(104, Finding.CANNOT_TELL));
        }
        assertThat(judge(tests, true)).isEqualTo(new Answer(Code.ONCE, 103));
    }

    /** common practice, no source; the numbers are our own choice */
    @ParameterizedTest
    @CsvSource({"0, 0, 3", "6, 0, 3", "6, 2, 1", "6, 3, 0", "40, 0, 10", "40, 8, 0"})
    void thenTakesFewAtATime(int there, int ofThisWeek, int more) {
        List<Test> tests = new ArrayList<>();
        clear(tests, 100);
        clear(tests, 103);
        Answer answer = Stocking.judge(Optional.of(6L), tests, true, there, ofThisWeek);
        assertThat(answer).isEqualTo(new Answer(Code.FEW, more));
        assertThat(answer.speaksAgainst(more)).isFalse();
        assertThat(answer.speaksAgainst(more + 1)).isTrue();
    }

    @org.junit.jupiter.api.Test
    void leavesOldSystemsAloneUnlessAmmoniaOrNitriteWasFoundLast() {
        assertThat(Stocking.judge(Optional.of(200L), List.of(), false, 20, 20).code())
                .isEqualTo(Code.FREE);
        assertThat(Stocking.judge(Optional.empty(), List.of(), false, 20, 20).code())
                .isEqualTo(Code.FREE);
        List<Test> found = List.of(ammonia(100, Finding.FOUND));
        assertThat(Stocking.judge(Optional.empty(), found, true, 20, 0)).isEqualTo(new Answer(Code.FOUND, 100));
        assertThat(Stocking.judge(Optional.of(12L), List.of(), false, 20, 0).code())
                .as("stocked long ago and never tested since")
                .isEqualTo(Code.FEW);
        assertThat(Stocking.judge(Optional.of(12L), List.of(), false, 0, 0).code())
                .isEqualTo(Code.NOT_TESTED);
    }

    private static Answer judge(List<Test> tests, boolean source) {
        return Stocking.judge(Optional.of(6L), tests, source, 0, 0);
    }

    private static void clear(List<Test> tests, long day) {
        tests.add(ammonia(day, Finding.BELOW_DETECTION));
        tests.add(nitrite(day, Finding.BELOW_DETECTION));
    }

    private static Test ammonia(long day, Finding finding) {
        return new Test(day, false, finding);
    }

    private static Test nitrite(long day, Finding finding) {
        return new Test(day, true, finding);
    }
}
