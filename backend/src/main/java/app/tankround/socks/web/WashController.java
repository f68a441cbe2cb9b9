package app.tankround.socks.web;

import app.tankround.persistence.Uuids;
import app.tankround.socks.SockPool;
import app.tankround.socks.SockPools;
import app.tankround.socks.SockTags;
import app.tankround.socks.SockWash;
import app.tankround.socks.SockWashes;
import app.tankround.socks.SockWashingSettings;
import app.tankround.stock.Catalogue;
import app.tankround.stock.StockAccountKind;
import app.tankround.stock.StockItemId;
import app.tankround.stock.StockItemView;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.math.BigDecimal;
import java.time.Clock;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The wash, step by step; socks that are taken out of use; and counts that disagree. */
@Controller
class WashController {

    private static final String TO_WASH = "redirect:/socks/wash";

    /** A line of a load that is to be started; {@code index} is its place in the form. */
    record Row(int index, String name, int waiting) {}

    private final SockWashes washes;
    private final SockPools pools;
    private final SockTags tags;
    private final SockWashingSettings settings;
    private final Catalogue catalogue;
    private final SockWords words;
    private final MessageSource messages;
    private final Clock clock;

    WashController(
            SockWashes washes,
            SockPools pools,
            SockTags tags,
            SockWashingSettings settings,
            Catalogue catalogue,
            SockWords words,
            MessageSource messages,
            Clock clock) {
        this.washes = washes;
        this.pools = pools;
        this.tags = tags;
        this.settings = settings;
        this.catalogue = catalogue;
        this.words = words;
        this.messages = messages;
        this.clock = clock;
    }

    @GetMapping("/socks/wash")
    String wash(Model model, Locale locale) {
        model.addAttribute(
                "loads",
                washes.open().stream().map(load -> words.load(load, locale)).toList());
        model.addAttribute("waiting", count(washes.waiting(false)));
        model.addAttribute("waitingApart", count(washes.waiting(true)));
        model.addAttribute("most", settings.current().socksInLoad());
        return "socks/wash";
    }

    private static int count(List<SockWash.Line> lines) {
        return lines.stream().mapToInt(SockWash.Line::count).sum();
    }

    @GetMapping("/socks/wash/start")
    String start(@RequestParam(defaultValue = "false") boolean apart, Model model) {
        List<SockWash.Line> waiting = washes.waiting(apart);
        model.addAttribute(
                "form",
                WashStartForm.of(
                        Uuids.next(clock.instant()),
                        apart,
                        waiting,
                        settings.current().socksInLoad()));
        return start(waiting, waiting.stream().map(SockWash.Line::item).toList(), model);
    }

    @PostMapping("/socks/wash/start")
    String start(
            @ModelAttribute("form") WashStartForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (!result.hasErrors()) {
            try {
                form.toCommand(new FormReader(result, locale)).ifPresent(washes::start);
            } catch (FieldRefusal refusal) {
                new FieldRefusal(
                                form.field(refusal.field()),
                                refusal.code(),
                                refusal.args().toArray())
                        .into(result);
            }
        }
        if (!result.hasErrors()) {
            redirect.addFlashAttribute("flash", "socks.wash.started");
            return TO_WASH;
        }
        List<StockItemView> sent = form.getLines().stream()
                .map(WashStartForm.Line::getItem)
                .flatMap(Stream::ofNullable)
                .map(catalogue::require)
                .toList();
        return start(washes.waiting(form.isApart()), sent, model);
    }

    private String start(List<SockWash.Line> dirty, List<StockItemView> items, Model model) {
        Map<StockItemView, Integer> waiting =
                dirty.stream().collect(Collectors.toMap(SockWash.Line::item, SockWash.Line::count));
        model.addAttribute(
                "rows",
                IntStream.range(0, items.size())
                        .mapToObj(index ->
                                new Row(index, items.get(index).title(), waiting.getOrDefault(items.get(index), 0)))
                        .toList());
        model.addAttribute("most", settings.current().socksInLoad());
        return "socks/wash-start";
    }

    @PostMapping("/socks/wash/{id}/washed")
    String washed(
            @PathVariable UUID id,
            @RequestParam(defaultValue = "false") boolean disinfected,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        return step(() -> washes.washed(id, disinfected), id, "socks.wash.washed", model, locale, redirect);
    }

    @PostMapping("/socks/wash/{id}/dry")
    String dry(@PathVariable UUID id, Model model, Locale locale, RedirectAttributes redirect) {
        return step(() -> washes.dry(id), id, "socks.wash.dried", model, locale, redirect);
    }

    private String step(
            Runnable step, UUID load, String done, Model model, Locale locale, RedirectAttributes redirect) {
        try {
            step.run();
            redirect.addFlashAttribute("flash", done);
            return TO_WASH;
        } catch (FieldRefusal refusal) {
            model.addAttribute("refusedLoad", load);
            model.addAttribute(
                    "refusal",
                    messages.getMessage(refusal.code(), refusal.args().toArray(), locale));
            return wash(model, locale);
        }
    }

    @GetMapping("/socks/wash/out")
    String out(@RequestParam(required = false) @Nullable String which, Model model, Locale locale) {
        model.addAttribute("form", TakeOutForm.blank(Uuids.next(clock.instant()), which));
        return out(model, locale);
    }

    @PostMapping("/socks/wash/out")
    String takeOut(
            @ModelAttribute("form") TakeOutForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (done(result, locale, form::toCommand, washes::takeOut)) {
            redirect.addFlashAttribute("flash", "socks.out.done");
            return TO_WASH;
        }
        return out(model, locale);
    }

    private String out(Model model, Locale locale) {
        model.addAttribute("places", words.places(pools.all(), false, locale));
        model.addAttribute(
                "ways",
                Stream.of(StockAccountKind.RETIRED, StockAccountKind.BROKEN, StockAccountKind.LOST)
                        .map(kind ->
                                new Choice(kind.name(), messages.getMessage("stock.account." + kind, null, locale)))
                        .toList());
        return "socks/out";
    }

    /** A sock that carries a tag. */
    record Tagged(String tag, String name, int washes) {}

    @GetMapping("/socks/wash/tags")
    String tags(Model model) {
        model.addAttribute("form", TagsForm.blank());
        return tagged(model);
    }

    @PostMapping("/socks/wash/tags")
    String register(
            @ModelAttribute("form") TagsForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (done(result, locale, form::toCommand, each -> tags.register(each.item(), each.tags(), each.washes()))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/socks/wash/tags";
        }
        return tagged(model);
    }

    private String tagged(Model model) {
        Map<StockItemId, StockItemView> items = pools.all().stream()
                .map(SockPool::item)
                .collect(Collectors.toMap(StockItemView::id, item -> item, (one, other) -> one, LinkedHashMap::new));
        model.addAttribute(
                "items",
                items.values().stream()
                        .map(item -> new Choice(item.id().toString(), item.title()))
                        .toList());
        model.addAttribute(
                "tagged",
                tags.all().stream()
                        .map(tag -> new Tagged(
                                tag.tag(),
                                Optional.ofNullable(items.get(tag.item()))
                                        .map(StockItemView::title)
                                        .orElse(""),
                                tag.washes()))
                        .toList());
        model.addAttribute("mostWashes", settings.current().mostWashes());
        return "socks/tags";
    }

    @GetMapping("/socks/wash/count")
    String count(@RequestParam(required = false) @Nullable String which, Model model, Locale locale) {
        model.addAttribute("form", SockCountForm.blank(Uuids.next(clock.instant()), which));
        return count(model, locale);
    }

    @PostMapping("/socks/wash/count")
    String keepCount(
            @ModelAttribute("form") SockCountForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        if (done(
                result,
                locale,
                form::toCommand,
                counted -> catalogue.count(
                        counted.id(),
                        counted.at().item(),
                        counted.at().account(),
                        BigDecimal.valueOf(counted.count()),
                        counted.why()))) {
            redirect.addFlashAttribute("flash", "stock.counted");
            return "redirect:/socks";
        }
        return count(model, locale);
    }

    private String count(Model model, Locale locale) {
        model.addAttribute("places", words.places(pools.all(), true, locale));
        return "socks/count";
    }

    private static <C> boolean done(
            BindingResult result, Locale locale, Function<FormReader, Optional<C>> read, Consumer<C> work) {
        if (result.hasErrors()) {
            return false;
        }
        try {
            Optional<C> command = read.apply(new FormReader(result, locale));
            command.ifPresent(work);
            return command.isPresent();
        } catch (FieldRefusal refusal) {
            refusal.into(result);
            return false;
        }
    }
}
