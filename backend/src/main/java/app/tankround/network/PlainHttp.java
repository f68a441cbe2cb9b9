package app.tankround.network;

import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.function.IntSupplier;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ValveBase;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;

/**
 * Answers plain HTTP to the machine itself and to named proxies that took HTTPS from the browser. Anybody else gets
 * the page with which a tablet begins, and nothing more: there a session could be read by all.
 *
 * <p>It stands before everything that believes a header, and asks who really called.
 */
final class PlainHttp extends ValveBase {

    private static final List<String> FORWARDED =
            List.of("X-Forwarded-For", "X-Forwarded-Proto", "X-Forwarded-Host", "Forwarded");

    /** The page with which a device begins. */
    static final String BEGIN = "/connect";

    private static final List<String> FOR_ALL = List.of(BEGIN + "/", "/css/", "/fonts/", "/img/", "/js/web/");
    private static final Set<String> READING = Set.of("GET", "HEAD");

    private final NamedProxies proxies;
    private final IntSupplier httpsPort;

    PlainHttp(NamedProxies proxies, IntSupplier httpsPort) {
        super(true);
        this.proxies = proxies;
        this.httpsPort = httpsPort;
    }

    @Override
    public void invoke(Request request, Response response) throws IOException, ServletException {
        String path = request.getDecodedRequestURI();
        boolean reading = READING.contains(request.getMethod());
        if (request.getConnector().getSecure()
                || (reading && (path.equals(BEGIN) || FOR_ALL.stream().anyMatch(path::startsWith)))) {
            getNext().invoke(request, response);
            return;
        }
        // Without the interface that Java adds to an address of IPv6.
        InetAddress caller = InetAddress.ofLiteral(request.getPeerAddr().split("%", 2)[0]);
        boolean forwarded = FORWARDED.stream().anyMatch(header -> request.getHeader(header) != null);
        if (proxies.include(caller) && (forwarded || !caller.isLoopbackAddress())) {
            if (tookHttps(request) || path.equals("/actuator/health")) {
                getNext().invoke(request, response);
            } else {
                refuse(
                        request,
                        response,
                        "The proxy at %s did not say that it took this request by HTTPS. It must, with"
                                + " the header X-Forwarded-Proto: https.",
                        AddressText.of(caller));
            }
        } else if (!caller.isLoopbackAddress()) {
            String address = "https://" + request.getServerName() + ":" + httpsPort.getAsInt();
            if (reading && accepts(request, MediaType.TEXT_HTML_VALUE)) {
                response.setStatus(HttpServletResponse.SC_SEE_OTHER);
                response.setHeader(HttpHeaders.LOCATION, BEGIN);
            }
            refuse(
                    request,
                    response,
                    "Tankround answers plain HTTP to its own machine only. Open %s instead; a device that"
                            + " does not trust it yet begins at %s.",
                    address + "/",
                    BEGIN);
        } else if (forwarded) {
            refuse(
                    request,
                    response,
                    "This request came through a proxy that is not named. Start Tankround with"
                            + " --tankround.proxies=%s if it is yours.",
                    AddressText.of(caller));
        } else {
            getNext().invoke(request, response);
        }
    }

    private static boolean tookHttps(Request request) {
        @Nullable String protocols = request.getHeader("X-Forwarded-Proto");
        return protocols != null
                && Arrays.stream(protocols.split(","))
                        .allMatch(protocol -> protocol.strip().equalsIgnoreCase("https"));
    }

    private static boolean accepts(Request request, String type) {
        @Nullable String accepted = request.getHeader(HttpHeaders.ACCEPT);
        return accepted != null && accepted.contains(type);
    }

    private static void refuse(Request request, Response response, String sentence, Object... parts)
            throws IOException {
        String said = sentence.formatted(parts);
        if (response.getStatus() == HttpServletResponse.SC_OK) {
            response.setStatus(HttpServletResponse.SC_FORBIDDEN);
        }
        response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        response.setHeader("X-Content-Type-Options", "nosniff");
        boolean program = request.getDecodedRequestURI().startsWith("/api/");
        response.setContentType(program ? MediaType.APPLICATION_PROBLEM_JSON_VALUE : MediaType.TEXT_PLAIN_VALUE);
        response.setCharacterEncoding(StandardCharsets.UTF_8);
        response.getWriter()
                .write(program ? """
                        {"type":"/problems/https-needed","status":403,"detail":"%s"}""".formatted(said.replace("\\", "\\\\").replace("\"", "\\\"")) : said + "\n");
    }
}
