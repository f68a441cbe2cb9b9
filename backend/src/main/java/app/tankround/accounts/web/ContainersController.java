package app.tankround.accounts.web;

import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.BusinessSettings;
import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.ContainerRegister.WashStep;
import app.tankround.accounts.ContainerRole;
import app.tankround.accounts.CurrentPerson;
import app.tankround.accounts.Days;
import app.tankround.accounts.DepotView;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerId;
import app.tankround.accounts.WaterContainerView;
import app.tankround.persistence.Uuids;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import app.tankround.web.MassText;
import app.tankround.web.SentForm;
import app.tankround.web.ShownMeasures;
import app.tankround.web.VolumeText;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
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

/** The containers for water: what each holds, where it belongs, and how it was washed. */
@Controller
class ContainersController {

    private static final String PAGE = "accounts/container";
    private static final LocalDate FIRST_DAY = LocalDate.of(2000, 1, 1);

    /** A wash as ticked and typed. */
    record WashForm(
            int version,
            @Nullable String id,
            @Nullable Boolean rinsed,
            @Nullable Boolean washed,
            @Nullable Boolean rinsedAgain,
            @Nullable Boolean dried,
            @Nullable String person,
            @Nullable String washedOn) {

        WashForm {
            rinsed = Boolean.TRUE.equals(rinsed);
            washed = Boolean.TRUE.equals(washed);
            rinsedAgain = Boolean.TRUE.equals(rinsedAgain);
            dried = Boolean.TRUE.equals(dried);
        }

        Set<WashStep> done() {
            Set<WashStep> done = EnumSet.noneOf(WashStep.class);
            add(done, rinsed, WashStep.RINSED);
            add(done, washed, WashStep.WASHED);
            add(done, rinsedAgain, WashStep.RINSED_AGAIN);
            add(done, dried, WashStep.DRIED);
            return done;
        }

        private static void add(Set<WashStep> done, @Nullable Boolean ticked, WashStep step) {
            if (Boolean.TRUE.equals(ticked)) {
                done.add(step);
            }
        }
    }

    /** A container in words. */
    record Row(WaterContainerId id, String number, String role, String size, String empty, String moved) {}

    /** Containers that belong to one van or pool. */
    record Group(String title, List<Row> rows) {}

    private final ContainerRegister register;
    private final Fleet fleet;
    private final People people;
    private final CurrentPerson currentPerson;
    private final BusinessProfile business;
    private final Days days;
    private final MessageSource messages;
    private final Clock clock;

    ContainersController(
            ContainerRegister register,
            Fleet fleet,
            People people,
            CurrentPerson currentPerson,
            BusinessProfile business,
            Days days,
            MessageSource messages,
            Clock clock) {
        this.register = register;
        this.fleet = fleet;
        this.people = people;
        this.currentPerson = currentPerson;
        this.business = business;
        this.days = days;
        this.messages = messages;
        this.clock = clock;
    }

    @ModelAttribute("roles")
    List<Choice> roles(Locale locale) {
        return Stream.of(ContainerRole.values())
                .map(role -> new Choice(role.name(), word("accounts.container.role." + role, locale)))
                .toList();
    }

    @ModelAttribute("places")
    List<Choice> places(Locale locale) {
        return Stream.concat(
                        fleet.vans().stream().map(van -> new Choice(ContainerForm.place(van.id()), van.name())),
                        fleet.depots().stream()
                                .map(depot -> new Choice(
                                        ContainerForm.place(depot.id()),
                                        word("accounts.container.pool", locale, depot.name()))))
                .toList();
    }

    @ModelAttribute("measures")
    ShownMeasures measures() {
        return ShownMeasures.of(business.current().unitSystem());
    }

    @GetMapping("/vans/containers")
    String containers(Model model, Locale locale) {
        List<WaterContainerView> all = register.all();
        Map<String, List<Row>> groups = new LinkedHashMap<>();
        places(locale).forEach(place -> groups.put(place.text(), new ArrayList<>()));
        String outOfUse = word("accounts.containers.out-of-use", locale);
        groups.put(outOfUse, new ArrayList<>());
        all.forEach(container -> groups.computeIfAbsent(
                        container.outOfUse() ? outOfUse : place(container, locale), none -> new ArrayList<>())
                .add(row(container, locale)));
        model.addAttribute(
                "groups",
                groups.entrySet().stream()
                        .filter(group -> !group.getValue().isEmpty())
                        .map(group -> new Group(group.getKey(), group.getValue()))
                        .toList());
        model.addAttribute(
                "without",
                fleet.vans().stream()
                        .filter(van -> ContainerRegister.usableBy(van, all).isEmpty())
                        .map(VanView::name)
                        .toList());
        return "accounts/containers";
    }

    private Row row(WaterContainerView container, Locale locale) {
        BusinessSettings settings = business.current();
        return new Row(
                container.id(),
                container.number(),
                word("accounts.container.role." + container.role(), locale),
                new VolumeText(locale, settings.unitSystem()).of(container.size()),
                new MassText(locale, settings.unitSystem()).of(container.empty()),
                word(container.pumped() ? "accounts.container.pumped" : "accounts.container.lifted", locale));
    }

    private String place(WaterContainerView container, Locale locale) {
        return container
                .van()
                .flatMap(fleet::find)
                .map(VanView::name)
                .or(() -> container
                        .depot()
                        .flatMap(fleet::find)
                        .map(depot -> word("accounts.container.pool", locale, depot.name())))
                .orElse("");
    }

    @GetMapping("/vans/containers/new")
    String newContainer(@RequestParam(required = false) @Nullable VanId van, Model model) {
        Optional<String> place = van == null
                ? fleet.depots().stream().findFirst().map(DepotView::id).map(ContainerForm::place)
                : Optional.of(ContainerForm.place(fleet.require(van).id()));
        model.addAttribute("containerId", WaterContainerId.of(Uuids.next(clock.instant())));
        model.addAttribute("form", ContainerForm.blank(place.orElse(null)));
        return PAGE;
    }

    @GetMapping("/vans/containers/{id}")
    String container(@PathVariable WaterContainerId id, Model model, Locale locale) {
        WaterContainerView stored = register.require(id);
        model.addAttribute("form", ContainerForm.of(stored, measures(), locale));
        model.addAttribute("wash", blankWash(stored));
        return page(id, model, locale);
    }

    @PostMapping("/vans/containers/{id}")
    String save(
            @PathVariable WaterContainerId id,
            @ModelAttribute("form") ContainerForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        Optional<WaterContainerView> wanted =
                form.toCommand(id, register.find(id), new FormReader(result, locale), measures());
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        wanted,
                        register::save,
                        () -> ContainerForm.of(register.require(id), measures(), locale))) {
            redirect.addFlashAttribute("flash", "web.saved");
            return "redirect:/vans/containers";
        }
        register.find(id).ifPresent(stored -> model.addAttribute("wash", blankWash(stored)));
        return page(id, model, locale);
    }

    @PostMapping("/vans/containers/{id}/wash")
    String wash(
            @PathVariable WaterContainerId id,
            @ModelAttribute("wash") WashForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        FormReader reader = new FormReader(result, locale);
        Optional<PersonId> person = reader.id("person", form.person()).map(PersonId::of);
        Optional<LocalDate> washedOn =
                reader.requiredDate("washedOn", form.washedOn(), FIRST_DAY, days.of(clock.instant()));
        if (reader.accepted()) {
            try {
                register.wash(
                        FormReader.madeWith("container-wash", form.id()),
                        id,
                        form.version(),
                        form.done(),
                        person.orElseThrow(),
                        washedOn.orElseThrow());
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/vans/containers/" + id;
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        model.addAttribute("form", ContainerForm.of(register.require(id), measures(), locale));
        return page(id, model, locale);
    }

    private WashForm blankWash(WaterContainerView stored) {
        return new WashForm(
                stored.version(),
                Uuids.next(clock.instant()).toString(),
                false,
                false,
                false,
                false,
                currentPerson.id().map(PersonId::toString).orElse(null),
                days.of(clock.instant()).toString());
    }

    /** Everything around the forms. */
    private String page(WaterContainerId id, Model model, Locale locale) {
        record Washed(String day, String person, String from, String to) {}
        model.addAttribute("containerId", id);
        register.find(id).ifPresent(stored -> {
            model.addAttribute("stored", row(stored, locale));
            if (stored.role().isClean()) {
                model.addAttribute(
                        "washedTo",
                        word(
                                "accounts.container.role."
                                        + (stored.role() == ContainerRole.FRESH
                                                ? ContainerRole.SALT
                                                : ContainerRole.FRESH),
                                locale));
            }
            model.addAttribute(
                    "washes",
                    register.washes(id).stream()
                            .map(wash -> new Washed(
                                    Days.day(wash.washedOn(), locale),
                                    people.find(wash.person())
                                            .map(PersonView::name)
                                            .orElse(""),
                                    word("accounts.container.role." + wash.from(), locale),
                                    word("accounts.container.role." + wash.to(), locale)))
                            .toList());
            model.addAttribute(
                    "washers",
                    people.all().stream()
                            .filter(person -> person.active() && person.role() != Role.CLIENT)
                            .map(person -> new Choice(person.id().toString(), person.name()))
                            .toList());
        });
        return PAGE;
    }

    private String word(String code, Locale locale, Object... args) {
        return messages.getMessage(code, args, locale);
    }
}
