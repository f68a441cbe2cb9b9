package app.tankround.tanks.web;

import app.tankround.persistence.Uuids;
import app.tankround.tanks.EquipmentDetails;
import app.tankround.tanks.EquipmentId;
import app.tankround.tanks.EquipmentView;
import app.tankround.tanks.LivestockDetails;
import app.tankround.tanks.LivestockId;
import app.tankround.tanks.LivestockView;
import app.tankround.tanks.NewEquipment;
import app.tankround.tanks.NewLivestock;
import app.tankround.tanks.NewTank;
import app.tankround.tanks.TankDetails;
import app.tankround.tanks.TankId;
import app.tankround.tanks.TankMaterial;
import app.tankround.tanks.TankView;
import app.tankround.tanks.WaterSystemId;
import app.tankround.tanks.WaterSystemView;
import app.tankround.tanks.WaterSystems;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

/** Forms for what belongs to a system: tanks, equipment and livestock. */
@Controller
class PartsController {

    private static final String TANK_FORM = "tanks/tank-form";
    private static final String EQUIPMENT_FORM = "tanks/equipment-form";
    private static final String LIVESTOCK_FORM = "tanks/livestock-form";

    private final WaterSystems systems;
    private final Words words;
    private final Clock clock;

    PartsController(WaterSystems systems, Words words, Clock clock) {
        this.systems = systems;
        this.words = words;
        this.clock = clock;
    }

    // Tanks

    @GetMapping("/systems/{systemId}/tanks/new")
    String blankTank(@PathVariable UUID systemId, Model model, Locale locale) {
        show(systemId, model, locale);
        model.addAttribute("form", TankForm.blank(TankId.of(newId()), systems.nextTankCode()));
        return TANK_FORM;
    }

    @PostMapping("/systems/{systemId}/tanks/new")
    String addTank(
            @PathVariable UUID systemId,
            @ModelAttribute("form") TankForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = show(systemId, model, locale);
        TankId id = TankId.of(FormReader.madeWith("tank", form.id()));
        Optional<TankDetails> details =
                form.toCommand(system.id(), new FormReader(result, locale), words.figures(locale), Optional.empty());
        boolean saved = new SentForm(result, model, response)
                .saved(form, details, read -> systems.addTank(new NewTank(id, read)), () -> stored(id, model, locale));
        return saved ? saved(system.id(), redirect) : TANK_FORM;
    }

    @GetMapping("/tanks/{id}/edit")
    String editTank(@PathVariable UUID id, Model model, Locale locale) {
        TankView tank = systems.requireTank(TankId.of(id));
        show(tank.systemId().value(), model, locale);
        model.addAttribute("form", stored(tank.id(), model, locale));
        return TANK_FORM;
    }

    @PostMapping("/tanks/{id}/edit")
    String changeTank(
            @PathVariable UUID id,
            @ModelAttribute("form") TankForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        TankView tank = systems.requireTank(TankId.of(id));
        WaterSystemView system = show(tank.systemId().value(), model, locale);
        model.addAttribute("tank", tank);
        Optional<TankDetails> details =
                form.toCommand(system.id(), new FormReader(result, locale), words.figures(locale), tank.volume());
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> systems.changeTank(tank.id(), form.version(), read),
                        () -> stored(tank.id(), model, locale));
        return saved ? saved(system.id(), redirect) : TANK_FORM;
    }

    private TankForm stored(TankId id, Model model, Locale locale) {
        TankView tank = systems.requireTank(id);
        model.addAttribute("tank", tank);
        return TankForm.of(tank, words.figures(locale));
    }

    // Equipment

    @GetMapping("/systems/{systemId}/equipment/new")
    String blankEquipment(@PathVariable UUID systemId, Model model, Locale locale) {
        show(systemId, model, locale);
        model.addAttribute("form", EquipmentForm.blank(EquipmentId.of(newId()), systems.nextEquipmentCode()));
        return EQUIPMENT_FORM;
    }

    @PostMapping("/systems/{systemId}/equipment/new")
    String addEquipment(
            @PathVariable UUID systemId,
            @ModelAttribute("form") EquipmentForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = show(systemId, model, locale);
        EquipmentId id = EquipmentId.of(FormReader.madeWith("equipment", form.id()));
        Optional<EquipmentDetails> details =
                form.toCommand(system.id(), new FormReader(result, locale), systems.today());
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> systems.addEquipment(new NewEquipment(id, read)),
                        () -> stored(id, model));
        return saved ? saved(system.id(), redirect) : EQUIPMENT_FORM;
    }

    @GetMapping("/equipment/{id}/edit")
    String editEquipment(@PathVariable UUID id, Model model, Locale locale) {
        EquipmentView device = systems.requireEquipment(EquipmentId.of(id));
        show(device.systemId().value(), model, locale);
        model.addAttribute("form", stored(device.id(), model));
        return EQUIPMENT_FORM;
    }

    @PostMapping("/equipment/{id}/edit")
    String changeEquipment(
            @PathVariable UUID id,
            @ModelAttribute("form") EquipmentForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        EquipmentView device = systems.requireEquipment(EquipmentId.of(id));
        WaterSystemView system = show(device.systemId().value(), model, locale);
        model.addAttribute("device", device);
        Optional<EquipmentDetails> details =
                form.toCommand(system.id(), new FormReader(result, locale), systems.today());
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> systems.changeEquipment(device.id(), form.version(), read),
                        () -> stored(device.id(), model));
        return saved ? saved(system.id(), redirect) : EQUIPMENT_FORM;
    }

    private EquipmentForm stored(EquipmentId id, Model model) {
        EquipmentView device = systems.requireEquipment(id);
        model.addAttribute("device", device);
        return EquipmentForm.of(device);
    }

    // Livestock

    @GetMapping("/systems/{systemId}/livestock/new")
    String blankLivestock(@PathVariable UUID systemId, Model model, Locale locale) {
        show(systemId, model, locale);
        model.addAttribute(
                "form", LivestockForm.blank(LivestockId.of(newId()), systems.nextLivestockCode(), systems.today()));
        return LIVESTOCK_FORM;
    }

    @PostMapping("/systems/{systemId}/livestock/new")
    String addLivestock(
            @PathVariable UUID systemId,
            @ModelAttribute("form") LivestockForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        WaterSystemView system = show(systemId, model, locale);
        LivestockId id = LivestockId.of(FormReader.madeWith("livestock", form.id()));
        Optional<NewLivestock> added = form.toCommand(id, system.id(), new FormReader(result, locale), systems.today());
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        added,
                        read -> systems.putIn(read, form.reason(), "/systems/" + system.id()),
                        () -> stored(id, model));
        return saved ? saved(system.id(), redirect) : LIVESTOCK_FORM;
    }

    @GetMapping("/livestock/{id}/edit")
    String editLivestock(@PathVariable UUID id, Model model, Locale locale) {
        LivestockView animals = systems.requireLivestock(LivestockId.of(id));
        show(animals.systemId().value(), model, locale);
        model.addAttribute("form", stored(animals.id(), model));
        return LIVESTOCK_FORM;
    }

    @PostMapping("/livestock/{id}/edit")
    String changeLivestock(
            @PathVariable UUID id,
            @ModelAttribute("form") LivestockForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        LivestockView animals = systems.requireLivestock(LivestockId.of(id));
        WaterSystemView system = show(animals.systemId().value(), model, locale);
        model.addAttribute("animals", animals);
        Optional<LivestockDetails> details =
                form.toCorrection(system.id(), new FormReader(result, locale), systems.today());
        boolean saved = new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> systems.changeLivestock(animals.id(), form.version(), read),
                        () -> stored(animals.id(), model));
        return saved ? saved(system.id(), redirect) : LIVESTOCK_FORM;
    }

    private LivestockForm stored(LivestockId id, Model model) {
        LivestockView animals = systems.requireLivestock(id);
        model.addAttribute("animals", animals);
        return LivestockForm.of(animals);
    }

    // Shared

    private WaterSystemView show(UUID systemId, Model model, Locale locale) {
        WaterSystemView system = systems.require(WaterSystemId.of(systemId));
        model.addAttribute("system", system);
        model.addAttribute("figures", words.figures(locale));
        model.addAttribute("materials", words.choices("tanks.material", TankMaterial.class, locale));
        return system;
    }

    private static String saved(WaterSystemId id, RedirectAttributes redirect) {
        redirect.addFlashAttribute("flash", "tanks.saved");
        return "redirect:/systems/" + id;
    }

    private UUID newId() {
        return Uuids.next(clock.instant());
    }
}
