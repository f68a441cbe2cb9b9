package app.tankround.network;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.CertificateFactory;
import java.time.Duration;
import java.util.List;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;

/** A device that follows no redirect, keeps no cookie and trusts at most one authority. */
final class Visitor implements AutoCloseable {

    private final HttpClient client;

    private Visitor(HttpClient client) {
        this.client = client;
    }

    static Visitor trustingNobody() {
        return new Visitor(HttpClient.newHttpClient());
    }

    /** Trusts the authority whose certificate this is, in DER. */
    static Visitor trusting(byte[] authority) throws GeneralSecurityException, IOException {
        return new Visitor(
                HttpClient.newBuilder().sslContext(context(authority)).build());
    }

    static SSLContext context(byte[] authority) throws GeneralSecurityException, IOException {
        KeyStore store = KeyStore.getInstance("PKCS12");
        store.load(null, null);
        store.setCertificateEntry(
                "authority",
                CertificateFactory.getInstance("X.509").generateCertificate(new ByteArrayInputStream(authority)));
        var managers = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
        managers.init(store);
        SSLContext context = SSLContext.getInstance("TLS");
        context.init(null, managers.getTrustManagers(), null);
        return context;
    }

    HttpResponse<String> get(String address, String... headers) throws IOException, InterruptedException {
        return client.send(request(address, headers).GET().build(), BodyHandlers.ofString());
    }

    HttpResponse<byte[]> download(String address) throws IOException, InterruptedException {
        return client.send(request(address).GET().build(), BodyHandlers.ofByteArray());
    }

    HttpResponse<String> post(String address, String form) throws IOException, InterruptedException {
        return client.send(
                request(address, "Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(form))
                        .build(),
                BodyHandlers.ofString());
    }

    /** What a browser is told to keep. */
    static String cookie(HttpResponse<?> answer) {
        List<String> cookies = answer.headers().allValues("Set-Cookie");
        return cookies.isEmpty() ? "" : cookies.getFirst();
    }

    private static HttpRequest.Builder request(String address, String... headers) {
        var request = HttpRequest.newBuilder(URI.create(address)).timeout(Duration.ofSeconds(60));
        return headers.length == 0 ? request : request.headers(headers);
    }

    @Override
    public void close() {
        client.close();
    }
}
