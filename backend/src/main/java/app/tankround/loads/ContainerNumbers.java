package app.tankround.loads;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The numbers of containers in as few words as tell each: {@code C-03 … C-10, C-12}. */
final class ContainerNumbers {

    /** From so many that follow each other on, only the first and the last are told. */
    private static final int SHORTEST_RUN = 3;

    /** More digits than nine are no number that anybody counts by. */
    private static final Pattern COUNTED = Pattern.compile("(.*?)(\\d{1,9})");

    private ContainerNumbers() {}

    /** Of each number what stands before its last digits, and these; a number without any stands alone. */
    private record Counted(String whole, String before, int digits, int count) {

        static Counted of(String number) {
            Matcher read = COUNTED.matcher(number);
            return read.matches()
                    ? new Counted(number, read.group(1), read.group(2).length(), Integer.parseInt(read.group(2)))
                    : new Counted(number, number, 0, 0);
        }

        /** With as many digits, or one more where the first has no zeros before it, as after C9 comes C10. */
        boolean isNext(Counted last) {
            return digits > 0
                    && last.digits > 0
                    && before.equals(last.before)
                    && count == last.count + 1
                    && (digits == last.digits
                            || !whole.substring(before.length()).startsWith("0"));
        }
    }

    /** Of the containers that lines are about. */
    static String ofContainers(List<LoadLine> lines) {
        return of(lines.stream()
                .flatMap(line -> line.container().stream())
                .map(LoadedContainer::number)
                .toList());
    }

    static String of(List<String> numbers) {
        List<Counted> sorted = numbers.stream()
                .map(Counted::of)
                .sorted(Comparator.comparing(Counted::before)
                        .thenComparingInt(Counted::count)
                        .thenComparing(Counted::whole))
                .toList();
        List<String> told = new ArrayList<>();
        int from = 0;
        while (from < sorted.size()) {
            int until = from;
            while (until + 1 < sorted.size() && sorted.get(until + 1).isNext(sorted.get(until))) {
                until++;
            }
            if (until - from + 1 >= SHORTEST_RUN) {
                told.add(sorted.get(from).whole() + "\u00a0…\u00a0"
                        + sorted.get(until).whole());
            } else {
                sorted.subList(from, until + 1).forEach(each -> told.add(each.whole()));
            }
            from = until + 1;
        }
        return String.join(", ", told);
    }
}
