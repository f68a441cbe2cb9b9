package app.tankround.clients.web;

import app.tankround.clients.ClientDetails;
import app.tankround.clients.ClientId;
import app.tankround.clients.ClientService;
import app.tankround.clients.ClientView;
import app.tankround.clients.ContactDetails;
import app.tankround.clients.ContactId;
import app.tankround.clients.ContactView;
import app.tankround.clients.NewClient;
import app.tankround.clients.NewContact;
import app.tankround.clients.SiteService;
import app.tankround.persistence.Uuids;
import app.tankround.web.FormReader;
import app.tankround.web.SentForm;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Clock;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.validation.BindingResult;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;

@Controller
class ClientController {

    private final ClientService clients;
    private final SiteService sites;
    private final SiteSections sections;
    private final Clock clock;

    ClientController(ClientService clients, SiteService sites, SiteSections sections, Clock clock) {
        this.clients = clients;
        this.sites = sites;
        this.sections = sections;
        this.clock = clock;
    }

    @GetMapping("/clients")
    String list(@RequestParam(required = false) @Nullable String text, Model model) {
        String sought = Objects.requireNonNullElse(text, "");
        model.addAttribute("text", sought);
        model.addAttribute("clients", clients.search(sought));
        model.addAttribute("depots", sites.ownDepots());
        return "clients/list";
    }

    @GetMapping("/clients/{id}")
    String account(@PathVariable UUID id, Model model) {
        ClientView client = clients.require(ClientId.of(id));
        model.addAttribute("client", client);
        model.addAttribute("contacts", clients.contacts(client.id()));
        model.addAttribute("sites", sections.of(sites.byClient(client.id())));
        return "clients/account";
    }

    @GetMapping("/clients/new")
    String blank(Model model) {
        model.addAttribute("form", ClientForm.blank(ClientId.of(Uuids.next(clock.instant())), clients.nextCode()));
        return "clients/client-form";
    }

    @PostMapping("/clients/new")
    String add(
            @ModelAttribute("form") ClientForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        ClientId id = ClientId.of(FormReader.madeWith("client", form.id()));
        Optional<ClientDetails> details = form.toCommand(new FormReader(result, locale));
        if (new SentForm(result, model, response)
                .saved(form, details, read -> clients.add(new NewClient(id, read)), () -> stored(id, model))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/clients/" + id;
        }
        return "clients/client-form";
    }

    @GetMapping("/clients/{id}/edit")
    String edit(@PathVariable UUID id, Model model) {
        model.addAttribute("form", stored(ClientId.of(id), model));
        return "clients/client-form";
    }

    @PostMapping("/clients/{id}/edit")
    String change(
            @PathVariable UUID id,
            @ModelAttribute("form") ClientForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        ClientId clientId = ClientId.of(id);
        model.addAttribute("client", clients.require(clientId));
        Optional<ClientDetails> details = form.toCommand(new FormReader(result, locale));
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> clients.change(clientId, form.version(), read),
                        () -> stored(clientId, model))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/clients/" + id;
        }
        return "clients/client-form";
    }

    private ClientForm stored(ClientId id, Model model) {
        ClientView client = clients.require(id);
        model.addAttribute("client", client);
        return ClientForm.of(client);
    }

    @GetMapping("/clients/{clientId}/contacts/new")
    String blankContact(@PathVariable UUID clientId, Model model) {
        model.addAttribute("client", clients.require(ClientId.of(clientId)));
        model.addAttribute(
                "form", ContactForm.blank(ContactId.of(Uuids.next(clock.instant())), clients.nextContactCode()));
        return "clients/contact-form";
    }

    @PostMapping("/clients/{clientId}/contacts/new")
    String addContact(
            @PathVariable UUID clientId,
            @ModelAttribute("form") ContactForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        ClientView client = clients.require(ClientId.of(clientId));
        model.addAttribute("client", client);
        ContactId id = ContactId.of(FormReader.madeWith("contact", form.id()));
        Optional<ContactDetails> details = form.toCommand(client.id(), new FormReader(result, locale));
        if (new SentForm(result, model, response)
                .saved(form, details, read -> clients.addContact(new NewContact(id, read)), () -> stored(id, model))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/clients/" + clientId;
        }
        return "clients/contact-form";
    }

    @GetMapping("/contacts/{id}/edit")
    String editContact(@PathVariable UUID id, Model model) {
        ContactView contact = clients.requireContact(ContactId.of(id));
        model.addAttribute("contact", contact);
        model.addAttribute("client", clients.require(contact.clientId()));
        model.addAttribute("form", ContactForm.of(contact));
        return "clients/contact-form";
    }

    @PostMapping("/contacts/{id}/edit")
    String changeContact(
            @PathVariable UUID id,
            @ModelAttribute("form") ContactForm form,
            BindingResult result,
            Model model,
            Locale locale,
            HttpServletResponse response,
            RedirectAttributes redirect) {
        ContactView contact = clients.requireContact(ContactId.of(id));
        model.addAttribute("contact", contact);
        model.addAttribute("client", clients.require(contact.clientId()));
        Optional<ContactDetails> details = form.toCommand(contact.clientId(), new FormReader(result, locale));
        if (new SentForm(result, model, response)
                .saved(
                        form,
                        details,
                        read -> clients.changeContact(contact.id(), form.version(), read),
                        () -> stored(contact.id(), model))) {
            redirect.addFlashAttribute("flash", "clients.saved");
            return "redirect:/clients/" + contact.clientId();
        }
        return "clients/contact-form";
    }

    private ContactForm stored(ContactId id, Model model) {
        ContactView contact = clients.requireContact(id);
        model.addAttribute("contact", contact);
        return ContactForm.of(contact);
    }
}
