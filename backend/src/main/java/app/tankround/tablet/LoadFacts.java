package app.tankround.tablet;

import app.tankround.loads.LoadPage;
import app.tankround.loads.LoadPages;
import app.tankround.loads.LoadSheet;
import app.tankround.loads.LoadSheets;
import app.tankround.rounds.RoundView;
import app.tankround.tanks.WaterSystemId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Stream;
import org.springframework.stereotype.Component;

/** What goes into the van, as it was loaded by then: read and ticked where there is no signal. */
@Component
class LoadFacts {

    private final LoadSheets sheets;
    private final LoadPages pages;

    LoadFacts(LoadSheets sheets, LoadPages pages) {
        this.sheets = sheets;
        this.pages = pages;
    }

    LoadSheet sheet(RoundView round) {
        return sheets.loadSheet(round);
    }

    /** How the water for a change of a system is made up there. */
    List<String> water(LoadSheet sheet, WaterSystemId system, Locale locale) {
        return pages.water(sheet, system, locale);
    }

    Map<String, Object> of(LoadSheet sheet, Locale locale) {
        LoadPage page = pages.of(sheet, locale);
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("number", page.number());
        json.put("version", page.version());
        json.put("verdict", page.verdict());
        json.put("fits", page.fits());
        json.put("total", page.total());
        json.put("done", page.done());
        json.put("lines", page.lines());
        json.put(
                "said",
                Stream.of(page.socks(), page.notes()).flatMap(List::stream).toList());
        json.put("lifting", page.lifting());
        json.put(
                "groups",
                page.groups().stream().map(group -> group(group, sheet)).toList());
        json.put("mixes", page.mixes());
        return json;
    }

    private static Map<String, Object> group(LoadPage.Group group, LoadSheet sheet) {
        return Map.of(
                "title",
                group.title(),
                "remark",
                group.remark(),
                "rows",
                group.rows().stream().map(row -> row(row, sheet)).toList());
    }

    private static Map<String, Object> row(LoadPage.Row row, LoadSheet sheet) {
        Map<String, Object> json = new LinkedHashMap<>();
        json.put("parts", row.parts());
        json.put("stops", row.parts().stream().map(part -> stops(part, sheet)).toList());
        json.put("who", row.who());
        json.put(
                "safety", sheet.line(row.parts().getFirst().key()).orElseThrow().isSafety());
        json.put("shortage", row.shortage());
        json.put("missing", row.missing());
        json.put("instead", row.instead());
        json.put("factor", row.factor());
        json.put("take", row.take());
        json.put("measure", row.measure());
        json.put("item", row.item());
        json.put("numbers", row.numbers());
        json.put(
                "facts",
                Stream.of(row.facts(), row.asides(), List.of(row.caution()))
                        .flatMap(List::stream)
                        .filter(fact -> !fact.isEmpty())
                        .toList());
        json.put("together", row.together());
        json.put("needed", row.needed());
        return json;
    }

    /** Who needs it in the order of the round, so that it can be told who goes without. */
    private static List<Map<String, Object>> stops(LoadPage.Part part, LoadSheet sheet) {
        return sheet.line(part.key()).orElseThrow().stops().stream()
                .map(stop -> Map.<String, Object>of(
                        "name", stop.position() + " " + stop.siteName(), "amount", stop.amount()))
                .toList();
    }
}
