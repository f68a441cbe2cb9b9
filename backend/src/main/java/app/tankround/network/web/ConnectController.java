package app.tankround.network.web;

import app.tankround.network.SecureAddresses;
import app.tankround.persistence.Sha256;
import app.tankround.web.NotFound;
import jakarta.servlet.http.HttpServletRequest;
import java.net.InetAddress;
import java.security.cert.CertificateEncodingException;
import java.security.cert.X509Certificate;
import java.util.HexFormat;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;

/** The page with which a tablet begins; the only one that plain HTTP gives to other devices. */
@Controller
class ConnectController {

    private static final String PATH = "/connect";

    private final SecureAddresses addresses;

    ConnectController(SecureAddresses addresses) {
        this.addresses = addresses;
    }

    @GetMapping(PATH)
    String page(@RequestParam(required = false) @Nullable String host, HttpServletRequest request, Model model)
            throws CertificateEncodingException {
        @Nullable X509Certificate authority = addresses.authority().orElse(null);
        model.addAttribute("own", authority != null);
        if (!cannotBeForged(request)) {
            model.addAttribute("secure", addresses.of(request.getServerName(), "/"));
            return "network/connect";
        }
        List<String> hosts = addresses.hosts();
        model.addAttribute("hosts", hosts);
        if (!hosts.isEmpty()) {
            String chosen = host != null && hosts.contains(host) ? host : hosts.getFirst();
            model.addAttribute("host", chosen);
            model.addAttribute("begin", addresses.begin(chosen));
            model.addAttribute("secure", addresses.of(chosen, "/"));
        }
        if (authority != null) {
            model.addAttribute("fingerprint", fingerprint(authority.getEncoded()));
        }
        return "network/connect";
    }

    @GetMapping(value = PATH + "/code.svg", produces = "image/svg+xml")
    ResponseEntity<String> code(@RequestParam String host) {
        if (!addresses.hosts().contains(host)) {
            throw new NotFound("host", host);
        }
        return ResponseEntity.ok(QrSvg.of(addresses.begin(host)));
    }

    /** As most devices want it: its bytes (X.690), so that the file's SHA-256 is the fingerprint. */
    @GetMapping(PATH + "/tankround-authority.crt")
    ResponseEntity<byte[]> authority() throws CertificateEncodingException {
        return download("tankround-authority.crt", require().getEncoded());
    }

    private static ResponseEntity<byte[]> download(String name, byte[] content) {
        return ResponseEntity.ok()
                .contentType(MediaType.parseMediaType("application/x-x509-ca-cert"))
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment().filename(name).build().toString())
                .body(content);
    }

    private X509Certificate require() {
        return addresses.authority().orElseThrow(() -> new NotFound("authority", "given by file"));
    }

    /** What came to this machine by plain HTTP from another may have been changed on the way, a fingerprint too. */
    private static boolean cannotBeForged(HttpServletRequest request) {
        return request.isSecure()
                || InetAddress.ofLiteral(request.getRemoteAddr().split("%", 2)[0])
                        .isLoopbackAddress();
    }

    /** SHA-256, in pairs as the settings of devices show it. */
    private static String fingerprint(byte[] certificate) {
        return HexFormat.ofDelimiter(" ").withUpperCase().formatHex(Sha256.of(certificate));
    }
}
