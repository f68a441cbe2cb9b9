package app.tankround.feeds.web;

import app.tankround.accounts.Days;
import app.tankround.accounts.Fleet;
import app.tankround.accounts.People;
import app.tankround.clients.ClientService;
import app.tankround.feeds.CalendarFeeds;
import app.tankround.feeds.FeedKind;
import app.tankround.feeds.FeedView;
import app.tankround.network.SecureAddresses;
import app.tankround.web.Choice;
import app.tankround.web.FieldRefusal;
import app.tankround.web.FormReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import org.springframework.web.servlet.support.ServletUriComponentsBuilder;

/** Calendars for calendar programs: the page on which they are made and revoked, and their addresses. */
@Controller
class FeedController {

    private static final MediaType CALENDAR = new MediaType("text", "calendar", StandardCharsets.UTF_8);

    /** Whose calendar is asked for: a kind and an id with a colon between. */
    record FeedForm(@Nullable String subject) {}

    /** A calendar that can be read, with the moment of its making in words. */
    record Line(FeedView feed, String made) {}

    private final CalendarFeeds feeds;
    private final Days days;
    private final People people;
    private final Fleet fleet;
    private final ClientService clients;
    private final SecureAddresses addresses;
    private final MessageSource messages;

    FeedController(
            CalendarFeeds feeds,
            Days days,
            People people,
            Fleet fleet,
            ClientService clients,
            SecureAddresses addresses,
            MessageSource messages) {
        this.feeds = feeds;
        this.days = days;
        this.people = people;
        this.fleet = fleet;
        this.clients = clients;
        this.addresses = addresses;
        this.messages = messages;
    }

    @GetMapping("/calendar/{token}.ics")
    ResponseEntity<String> calendar(@PathVariable String token) {
        Optional<CalendarFeeds.Told> told = feeds.read(token);
        if (told.isEmpty()) {
            return ResponseEntity.notFound().build();
        }
        // Whoever has this text already is answered 304 by what writes the answer.
        return ResponseEntity.ok()
                .eTag(told.get().tag())
                .cacheControl(CacheControl.noCache().cachePrivate())
                .contentType(CALENDAR)
                .body(told.get().text());
    }

    @GetMapping("/calendar-feeds")
    String show(Model model, Locale locale) {
        model.addAttribute("form", new FeedForm(null));
        return page(model, locale);
    }

    @PostMapping("/calendar-feeds")
    String make(
            @ModelAttribute("form") FeedForm form,
            BindingResult result,
            Model model,
            Locale locale,
            RedirectAttributes redirect) {
        String[] asked = form.subject() == null ? new String[0] : form.subject().split(":", 2);
        FormReader reader = new FormReader(result, locale);
        Optional<FeedKind> kind = reader.choice("subject", asked.length == 2 ? asked[0] : "", FeedKind.class);
        Optional<UUID> subject = kind.flatMap(chosen -> reader.id("subject", asked[1]));
        if (subject.isPresent()) {
            try {
                redirect.addFlashAttribute("address", address(feeds.make(kind.orElseThrow(), subject.get())));
                return "redirect:/calendar-feeds";
            } catch (FieldRefusal refusal) {
                refusal.into(result);
            }
        }
        return page(model, locale);
    }

    @PostMapping("/calendar-feeds/{id}/revoke")
    String revoke(@PathVariable UUID id, RedirectAttributes redirect) {
        feeds.revoke(id);
        redirect.addFlashAttribute("flash", "feeds.revoked");
        return "redirect:/calendar-feeds";
    }

    /** As another device reaches it, where this one speaks to the program on its own machine. */
    private String address(String token) {
        String path = "/calendar/" + token + ".ics";
        return addresses
                .elsewhere(path)
                .orElseGet(() -> ServletUriComponentsBuilder.fromCurrentContextPath()
                        .path(path)
                        .toUriString());
    }

    private String page(Model model, Locale locale) {
        model.addAttribute(
                "lines",
                feeds.readable().stream()
                        .map(feed -> new Line(feed, days.moment(feed.madeAt(), locale)))
                        .toList());
        model.addAttribute(
                "subjects",
                Arrays.stream(FeedKind.values())
                        .flatMap(kind -> subjects(kind)
                                .map(subject -> new Choice(
                                        kind + ":" + subject.value(),
                                        messages.getMessage(
                                                "feeds.kind." + kind, new Object[] {subject.text()}, locale))))
                        .toList());
        return "feeds/feeds";
    }

    private Stream<Choice> subjects(FeedKind kind) {
        return switch (kind) {
            case TECHNICIAN ->
                people.technicians().stream()
                        .map(person -> new Choice(person.id().toString(), person.name()));
            case VAN -> fleet.vans().stream().map(van -> new Choice(van.id().toString(), van.name()));
            case CLIENT ->
                clients.all().stream().map(client -> new Choice(client.id().toString(), client.name()));
        };
    }
}
