package app.tankround.stock.web;

import app.tankround.documents.FileStore;
import app.tankround.documents.StoredFile;
import app.tankround.persistence.Uuids;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockHazard;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.stock.StockLabel;
import app.tankround.stock.StockLabels;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.NotFound;
import java.io.IOException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.multipart.MultipartFile;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The count along the shelves, and what is known of each thing there: shelf, barcode, hazard, safety data sheet. */
@Controller
class ShelfController {

    /** A line of the count; {@code index} is its place in the form. */
    record Row(int index, String name, String shelf, String barcode, String unit, String said, String caution) {}

    private final Catalogue catalogue;
    private final StockLabels labels;
    private final FileStore files;
    private final StockWords words;
    private final Clock clock;

    ShelfController(Catalogue catalogue, StockLabels labels, FileStore files, StockWords words, Clock clock) {
        this.catalogue = catalogue;
        this.labels = labels;
        this.files = files;
        this.words = words;
        this.clock = clock;
    }

    @GetMapping("/stock/shelves/count")
    String count(Model model, Locale locale) {
        List<StockItemView> items = alongTheShelves(locale);
        model.addAttribute("form", ShelfCountForm.of(Uuids.next(clock.instant()), items));
        model.addAttribute("rows", rows(items, locale));
        return "stock/shelf-count";
    }

    @PostMapping("/stock/shelves/count")
    String count(
            @ModelAttribute("form") ShelfCountForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                catalogue.count(
                        Optional.ofNullable(form.getId()).orElseThrow(() -> new FieldRefusal("", "stock.count.empty")),
                        form.toCommand());
                redirect.addFlashAttribute("flash", "stock.counted");
                return "redirect:/stock";
            } catch (FieldRefusal refusal) {
                String field = refusal.field().startsWith("counts[") ? form.field(refusal.field()) : refusal.field();
                new FieldRefusal(field, refusal.code(), refusal.args().toArray()).into(result);
            }
        }
        List<StockItemView> sent = form.getLines().stream()
                .map(ShelfCountForm.Line::getItem)
                .filter(item -> item != null)
                .map(catalogue::require)
                .toList();
        model.addAttribute("rows", rows(sent, locale));
        return "stock/shelf-count";
    }

    private List<StockItemView> alongTheShelves(Locale locale) {
        Map<StockItemId, StockLabel> known = labels.all();
        return catalogue.all().stream()
                .sorted(Comparator.comparing(
                                (StockItemView item) -> shelf(known, item).isEmpty())
                        .thenComparing(item -> shelf(known, item), String.CASE_INSENSITIVE_ORDER)
                        .thenComparing(item -> words.name(item, locale), String.CASE_INSENSITIVE_ORDER))
                .toList();
    }

    private static String shelf(Map<StockItemId, StockLabel> known, StockItemView item) {
        return Optional.ofNullable(known.get(item.id()))
                .flatMap(StockLabel::shelf)
                .orElse("");
    }

    private List<Row> rows(List<StockItemView> items, Locale locale) {
        Map<StockItemId, StockLabel> known = labels.all();
        List<Row> rows = new ArrayList<>();
        for (StockItemView item : items) {
            Optional<StockLabel> label = Optional.ofNullable(known.get(item.id()));
            rows.add(new Row(
                    rows.size(),
                    words.name(item, locale),
                    shelf(known, item),
                    label.flatMap(StockLabel::barcode).orElse(""),
                    words.unit(item.unit(), locale),
                    words.amount(item.onHand(), item.unit(), locale),
                    label.map(StockLabel::hazard)
                            .filter(hazard -> hazard != StockHazard.NONE)
                            .map(hazard -> words.word("stock.hazard." + hazard, locale))
                            .orElse("")));
        }
        return rows;
    }

    @GetMapping("/stock/{id}/label/edit")
    String label(@PathVariable StockItemId id, Model model, Locale locale) {
        model.addAttribute("form", LabelForm.of(labels.of(id)));
        return label(catalogue.require(id), model, locale);
    }

    @PostMapping("/stock/{id}/label/edit")
    String save(
            @PathVariable StockItemId id,
            @ModelAttribute("form") LabelForm form,
            BindingResult result,
            @RequestParam(name = "file", required = false) Optional<MultipartFile> file,
            Model model,
            Locale locale,
            RedirectAttributes redirect)
            throws IOException {
        if (!result.hasErrors()) {
            try {
                labels.save(form.toCommand(id), file.isPresent() ? file.get().getBytes() : new byte[0]);
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/stock/" + id + "/where";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return label(catalogue.require(id), model, locale);
    }

    private String label(StockItemView item, Model model, Locale locale) {
        List<Choice> hazards = Arrays.stream(StockHazard.values())
                .map(hazard -> new Choice(hazard.name(), words.word("stock.hazard." + hazard, locale)))
                .toList();
        model.addAttribute("hazards", hazards);
        model.addAttribute("item", item);
        model.addAttribute("name", words.name(item, locale));
        model.addAttribute("sheet", labels.of(item.id()).sheet().isPresent());
        return "stock/label";
    }

    @GetMapping("/stock/{id}/safety-data-sheet.pdf")
    ResponseEntity<byte[]> sheet(@PathVariable StockItemId id) {
        StoredFile file = labels.of(id).sheet().map(files::require).orElseThrow(() -> new NotFound("file", id));
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.inline()
                                .filename(file.name())
                                .build()
                                .toString())
                .body(file.content());
    }
}
