package app.tankround.accounts.web;

import app.tankround.accounts.Absence;
import app.tankround.accounts.BusinessProfile;
import app.tankround.accounts.ContainerRegister;
import app.tankround.accounts.CrewView;
import app.tankround.accounts.Crews;
import app.tankround.accounts.DepotId;
import app.tankround.accounts.DepotView;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.accounts.PersonId;
import app.tankround.accounts.PersonView;
import app.tankround.accounts.Role;
import app.tankround.accounts.SkillsView;
import app.tankround.accounts.VanId;
import app.tankround.accounts.VanView;
import app.tankround.accounts.WaterContainerView;
import app.tankround.accounts.WorkingHours;
import app.tankround.persistence.Uuids;
import app.tankround.units.Mass;
import app.tankround.units.Volume;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.ShownMeasures;
import app.tankround.web.VolumeText;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.format.FormatStyle;
import java.time.format.TextStyle;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
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
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** The vans and what each may carry. */
@Controller
class VansController {

    /**
     * Masses in kg and the drum in litres: what stands on a van's plate and a drum's label.
     *
     * @param floor in cm or inches, as the business reads
     */
    record VanForm(
            @Nullable VanId id,
            @Nullable String code,
            @Nullable String name,
            @Nullable DepotId depot,
            @Nullable BigDecimal payload,
            @Nullable BigDecimal fixedLoad,
            @Nullable BigDecimal room,
            @Nullable BigDecimal drum,
            @Nullable BigDecimal drumEmpty,
            @Nullable BigDecimal floor,
            @Nullable PersonId technician,
            @Nullable LocalTime leavesAt,
            int version) {

        static VanForm of(VanView van, ShownMeasures measures) {
            return new VanForm(
                    van.id(),
                    van.code(),
                    van.name(),
                    van.depotId(),
                    decimal(van.payload().kilograms()),
                    decimal(van.fixedLoad().kilograms()),
                    van.room().map(room -> decimal(room.litres())).orElse(null),
                    decimal(van.drum().litres()),
                    decimal(van.drumEmpty().kilograms()),
                    van.floorCm().map(measures::shownLength).orElse(null),
                    van.technician().orElse(null),
                    van.leavesAt(),
                    van.version());
        }

        VanView toVan(VanId vanId, Optional<VanView> stored, ShownMeasures measures) {
            if (depot == null) {
                throw new FieldRefusal("depot", "accounts.depot-missing");
            }
            if (leavesAt == null) {
                throw new FieldRefusal("leavesAt", "accounts.time-missing");
            }
            return new VanView(
                    vanId,
                    SettingsForm.text(code),
                    SettingsForm.text(name),
                    depot,
                    mass("payload", payload),
                    mass("fixedLoad", fixedLoad),
                    room == null ? Optional.empty() : Optional.of(Volume.ofLitres(notNegative("room", room))),
                    Volume.ofLitres(notNegative("drum", drum)),
                    mass("drumEmpty", drumEmpty),
                    floorCm(stored, measures),
                    Optional.ofNullable(technician),
                    leavesAt,
                    version);
        }

        /** A rounded number that nobody touched changes nothing. */
        private Optional<Double> floorCm(Optional<VanView> stored, ShownMeasures measures) {
            if (floor == null) {
                return Optional.empty();
            }
            BigDecimal lowest = measures.shownLength(Fleet.LOWEST_FLOOR_CM);
            BigDecimal highest = measures.shownLength(Fleet.HIGHEST_FLOOR_CM);
            if (floor.compareTo(lowest) < 0 || floor.compareTo(highest) > 0) {
                throw new FieldRefusal("floor", "web.number-out-of-range", floor.toPlainString(), lowest, highest);
            }
            return stored.flatMap(VanView::floorCm)
                    .filter(before -> measures.shownLength(before).compareTo(floor) == 0)
                    .or(() -> Optional.of(
                            Math.clamp(measures.centimetres(floor), Fleet.LOWEST_FLOOR_CM, Fleet.HIGHEST_FLOOR_CM)));
        }

        private static Mass mass(String field, @Nullable BigDecimal kilograms) {
            return Mass.ofKilograms(notNegative(field, kilograms));
        }

        private static double notNegative(String field, @Nullable BigDecimal number) {
            if (number == null) {
                throw new FieldRefusal(field, "web.number-missing");
            }
            if (number.signum() < 0) {
                throw new FieldRefusal(field, "accounts.not-negative", number.toPlainString());
            }
            return number.doubleValue();
        }

        private static BigDecimal decimal(double number) {
            return new BigDecimal(
                    BigDecimal.valueOf(number).stripTrailingZeros().toPlainString());
        }
    }

    private static final BigDecimal USUAL_DRUM_L = new BigDecimal("25");
    private static final BigDecimal USUAL_DRUM_KG = new BigDecimal("1.2");

    private final Fleet fleet;
    private final People people;
    private final Crews crews;
    private final ContainerRegister register;
    private final BusinessProfile business;
    private final MessageSource messages;
    private final Clock clock;

    VansController(
            Fleet fleet,
            People people,
            Crews crews,
            ContainerRegister register,
            BusinessProfile business,
            MessageSource messages,
            Clock clock) {
        this.fleet = fleet;
        this.people = people;
        this.crews = crews;
        this.register = register;
        this.business = business;
        this.messages = messages;
        this.clock = clock;
    }

    @ModelAttribute("depots")
    List<Choice> depots() {
        return fleet.depots().stream()
                .map(depot -> new Choice(depot.id().toString(), depot.name()))
                .toList();
    }

    @ModelAttribute("technicians")
    List<Choice> technicians() {
        return people.technicians().stream()
                .map(person -> new Choice(person.id().toString(), person.name()))
                .toList();
    }

    @ModelAttribute("measures")
    ShownMeasures measures() {
        return ShownMeasures.of(business.current().unitSystem());
    }

    @ModelAttribute("usualFloor")
    String usualFloor() {
        return measures().shownLength(VanView.USUAL_FLOOR_CM).setScale(0, RoundingMode.HALF_EVEN) + " "
                + measures().lengthUnit();
    }

    @GetMapping("/vans")
    String vans(Model model, Locale locale) {
        record Row(VanView van, String depot, String technician, String days) {}
        record Rider(PersonId id, String name, String facts) {}
        LocalDate today = LocalDate.now(clock);
        Map<PersonId, SkillsView> skills =
                crews.allSkills().stream().collect(Collectors.toMap(SkillsView::person, known -> known));
        List<Absence> absences = crews.absences(today);
        model.addAttribute(
                "people",
                people.all().stream()
                        .filter(person -> person.active() && person.role() != Role.CLIENT)
                        .map(person -> new Rider(
                                person.id(),
                                person.name(),
                                facts(
                                        Optional.ofNullable(skills.get(person.id())),
                                        absences.stream()
                                                .filter(away -> away.person().equals(person.id())),
                                        locale)))
                        .toList());
        model.addAttribute(
                "vans",
                fleet.vans().stream()
                        .map(van -> new Row(
                                van,
                                fleet.find(van.depotId()).map(DepotView::name).orElse(""),
                                van.technician()
                                        .flatMap(people::find)
                                        .map(person -> person.name())
                                        .orElse(""),
                                days(crews.of(van.id()), locale)))
                        .toList());
        return "accounts/vans";
    }

    /** When a van is out and who rides along, in a line; weekdays with the same hours stand together. */
    private String days(CrewView crew, Locale locale) {
        Map<WorkingHours, List<String>> byHours = new LinkedHashMap<>();
        for (DayOfWeek day : DayOfWeek.values()) {
            Optional.ofNullable(crew.hours().get(day))
                    .ifPresent(hours -> byHours.computeIfAbsent(hours, same -> new ArrayList<>())
                            .add(day.getDisplayName(TextStyle.SHORT, locale)));
        }
        String out = byHours.entrySet().stream()
                .map(entry -> String.join(", ", entry.getValue()) + " "
                        + entry.getKey().halves().stream()
                                .map(half -> half.from() + "\u2013" + half.until())
                                .collect(Collectors.joining(", ")))
                .collect(Collectors.joining("; "));
        String known = out.isEmpty() ? messages.getMessage("accounts.crew.days.none", null, locale) : out;
        return Stream.concat(Stream.of(known), crew.second().flatMap(people::find).map(PersonView::name).stream())
                .collect(Collectors.joining("; "));
    }

    private String facts(Optional<SkillsView> skills, Stream<Absence> away, Locale locale) {
        DateTimeFormatter day =
                DateTimeFormatter.ofLocalizedDate(FormatStyle.MEDIUM).withLocale(locale);
        return Stream.concat(
                        skills.stream()
                                .flatMap(known -> known.skills().stream().sorted())
                                .map(skill -> messages.getMessage(
                                        "accounts.skills." + skill.name().toLowerCase(Locale.ROOT), null, locale)),
                        away.map(absence -> messages.getMessage("accounts.absences", null, locale) + " "
                                + day.format(absence.first()) + "\u2013" + day.format(absence.last())))
                .collect(Collectors.joining("; "));
    }

    @GetMapping("/vans/new")
    String newVan(Model model) {
        VanId id = VanId.of(Uuids.next(clock.instant()));
        model.addAttribute("vanId", id);
        model.addAttribute(
                "form",
                new VanForm(
                        id,
                        null,
                        null,
                        fleet.depots().stream().findFirst().map(DepotView::id).orElse(null),
                        null,
                        null,
                        null,
                        USUAL_DRUM_L,
                        USUAL_DRUM_KG,
                        null,
                        null,
                        LocalTime.of(7, 30),
                        0));
        return "accounts/van";
    }

    @GetMapping("/vans/{id}")
    String van(@PathVariable VanId id, Model model, Locale locale) {
        model.addAttribute("vanId", id);
        model.addAttribute("form", VanForm.of(fleet.require(id), measures()));
        showContainers(id, model, locale);
        return "accounts/van";
    }

    @PostMapping("/vans/{id}")
    String save(
            @PathVariable VanId id,
            @ModelAttribute("form") VanForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        // With a number that cannot be read the view has no form, only what was typed into it.
        model.addAttribute("vanId", id);
        showContainers(id, model, locale);
        if (!result.hasErrors()) {
            try {
                fleet.save(form.toVan(id, fleet.find(id), measures()));
                redirect.addFlashAttribute("flash", "web.saved");
                return "redirect:/vans";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return "accounts/van";
    }

    /** Of a stored van the containers that it may load, by number; an empty text where it has none. */
    private void showContainers(VanId id, Model model, Locale locale) {
        fleet.find(id).ifPresent(van -> {
            List<WaterContainerView> usable = register.usableBy(van);
            List<String> said = new ArrayList<>();
            numbers(usable.stream().filter(container -> container.van().isPresent()))
                    .ifPresent(said::add);
            numbers(usable.stream().filter(container -> container.depot().isPresent()))
                    .ifPresent(pool ->
                            said.add(messages.getMessage("accounts.van.from-pool", new Object[] {pool}, locale)));
            model.addAttribute("containers", String.join("; ", said));
            model.addAttribute("drum", new VolumeText(locale, business.current().unitSystem()).of(van.drum()));
        });
    }

    private static Optional<String> numbers(Stream<WaterContainerView> containers) {
        return Optional.of(containers.map(WaterContainerView::number).collect(Collectors.joining(", ")))
                .filter(text -> !text.isEmpty());
    }
}
