package app.tankround.network;

import java.io.IOException;
import java.math.BigInteger;
import java.net.InetAddress;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.PrivateKey;
import java.security.SecureRandom;
import java.security.cert.X509Certificate;
import java.security.spec.ECGenParameterSpec;
import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.Date;
import java.util.List;
import java.util.stream.Stream;
import org.bouncycastle.asn1.DEROctetString;
import org.bouncycastle.asn1.x500.X500Name;
import org.bouncycastle.asn1.x500.X500NameBuilder;
import org.bouncycastle.asn1.x500.style.BCStyle;
import org.bouncycastle.asn1.x509.BasicConstraints;
import org.bouncycastle.asn1.x509.ExtendedKeyUsage;
import org.bouncycastle.asn1.x509.Extension;
import org.bouncycastle.asn1.x509.GeneralName;
import org.bouncycastle.asn1.x509.GeneralNames;
import org.bouncycastle.asn1.x509.GeneralSubtree;
import org.bouncycastle.asn1.x509.KeyPurposeId;
import org.bouncycastle.asn1.x509.KeyUsage;
import org.bouncycastle.asn1.x509.NameConstraints;
import org.bouncycastle.cert.X509v3CertificateBuilder;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cert.jcajce.JcaX509ExtensionUtils;
import org.bouncycastle.cert.jcajce.JcaX509v3CertificateBuilder;
import org.bouncycastle.operator.OperatorCreationException;
import org.bouncycastle.operator.jcajce.JcaContentSignerBuilder;

/** Makes certificates after RFC 5280: those of an authority that can vouch for nothing beyond the local network. */
final class Issuing {

    /** Tablets show the hour of wherever they were last; a certificate of this minute is none for a clock that is late. */
    private static final Duration EARLIER = Duration.ofDays(1);

    /** Of a server's certificate. Browsers take 398 days of a public authority and 825 of one's own. */
    private static final Duration SERVER_LIFE = Duration.ofDays(397);

    /** Longer than the machines, since each new authority has to be installed on each tablet by hand. */
    private static final Duration AUTHORITY_LIFE = Duration.ofDays(20 * 365);

    private static final int SERIAL_BITS = 127;
    private static final String ORGANIZATION = "Tankround";
    private static final SecureRandom RANDOM = new SecureRandom();

    /** Private ranges that no public name server and no public route leads to: RFC 1122, 1918, 4193, 4291. */
    private static final List<String> PRIVATE_RANGES =
            List.of("127.0.0.0/8", "10.0.0.0/8", "172.16.0.0/12", "192.168.0.0/16", "::1/128", "fc00::/7", "fe80::/10");

    private Issuing() {}

    /** A new authority, for servers with these names and with private addresses only. */
    static Identity authority(MachineNames names, Instant now) {
        KeyPair keys = newKeys();
        String place = names.hosts().isEmpty() ? "" : " of " + names.hosts().getFirst();
        X500Name name =
                name("Tankround authority%s, %s".formatted(place, now.toString().substring(0, 10)));
        var builder = builder(name, now, AUTHORITY_LIFE, name, keys);
        GeneralSubtree[] permitted = Stream.of(names.hosts().stream(), Stream.of("localhost", MachineNames.LOCAL))
                .flatMap(hosts -> hosts)
                .map(host -> new GeneralName(GeneralName.dNSName, host))
                .map(GeneralSubtree::new)
                .toArray(GeneralSubtree[]::new);
        permitted = Stream.concat(
                        Stream.of(permitted),
                        PRIVATE_RANGES.stream()
                                .map(Issuing::range)
                                .map(bytes -> new GeneralName(GeneralName.iPAddress, new DEROctetString(bytes)))
                                .map(GeneralSubtree::new))
                .toArray(GeneralSubtree[]::new);
        try {
            var identifiers = new JcaX509ExtensionUtils();
            builder.addExtension(Extension.basicConstraints, true, new BasicConstraints(0))
                    .addExtension(Extension.keyUsage, true, new KeyUsage(KeyUsage.keyCertSign))
                    // Nor may what it certifies sign mail or programs.
                    .addExtension(
                            Extension.extendedKeyUsage, false, new ExtendedKeyUsage(KeyPurposeId.id_kp_serverAuth))
                    .addExtension(Extension.nameConstraints, true, new NameConstraints(permitted, null))
                    .addExtension(
                            Extension.subjectKeyIdentifier,
                            false,
                            identifiers.createSubjectKeyIdentifier(keys.getPublic()));
        } catch (IOException | GeneralSecurityException impossible) {
            throw new IllegalStateException(impossible);
        }
        return new Identity(List.of(signed(builder, keys.getPrivate())), keys.getPrivate());
    }

    /** A server's certificate for exactly these names and addresses, with a key of its own. */
    static Identity server(
            Identity authority, Collection<String> hosts, Collection<InetAddress> addresses, Instant now) {
        KeyPair keys = newKeys();
        X500Name issuer = X500Name.getInstance(
                authority.certificate().getSubjectX500Principal().getEncoded());
        var builder = builder(issuer, now, SERVER_LIFE, name(hosts.iterator().next()), keys);
        GeneralName[] alternatives = Stream.concat(
                        hosts.stream().map(host -> new GeneralName(GeneralName.dNSName, host)),
                        addresses.stream()
                                .map(address -> new GeneralName(
                                        GeneralName.iPAddress, new DEROctetString(address.getAddress()))))
                .toArray(GeneralName[]::new);
        try {
            var identifiers = new JcaX509ExtensionUtils();
            builder.addExtension(Extension.basicConstraints, true, new BasicConstraints(false))
                    .addExtension(Extension.keyUsage, true, new KeyUsage(KeyUsage.digitalSignature))
                    .addExtension(
                            Extension.extendedKeyUsage, false, new ExtendedKeyUsage(KeyPurposeId.id_kp_serverAuth))
                    .addExtension(Extension.subjectAlternativeName, false, new GeneralNames(alternatives))
                    .addExtension(
                            Extension.subjectKeyIdentifier,
                            false,
                            identifiers.createSubjectKeyIdentifier(keys.getPublic()))
                    .addExtension(
                            Extension.authorityKeyIdentifier,
                            false,
                            identifiers.createAuthorityKeyIdentifier(
                                    authority.certificate().getPublicKey()));
        } catch (IOException | GeneralSecurityException impossible) {
            throw new IllegalStateException(impossible);
        }
        return new Identity(List.of(signed(builder, authority.key())), keys.getPrivate());
    }

    private static X509v3CertificateBuilder builder(
            X500Name issuer, Instant now, Duration life, X500Name subject, KeyPair keys) {
        Instant from = now.minus(EARLIER);
        return new JcaX509v3CertificateBuilder(
                issuer,
                new BigInteger(SERIAL_BITS, RANDOM).add(BigInteger.ONE),
                Date.from(from),
                Date.from(from.plus(life)),
                subject,
                keys.getPublic());
    }

    private static X509Certificate signed(X509v3CertificateBuilder builder, PrivateKey key) {
        try {
            return new JcaX509CertificateConverter()
                    .getCertificate(builder.build(new JcaContentSignerBuilder("SHA256withECDSA").build(key)));
        } catch (OperatorCreationException | GeneralSecurityException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    private static KeyPair newKeys() {
        try {
            KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
            generator.initialize(new ECGenParameterSpec("secp256r1"));
            return generator.generateKeyPair();
        } catch (GeneralSecurityException impossible) {
            throw new IllegalStateException(impossible);
        }
    }

    private static X500Name name(String common) {
        return new X500NameBuilder(BCStyle.INSTANCE)
                .addRDN(BCStyle.O, ORGANIZATION)
                .addRDN(BCStyle.CN, common)
                .build();
    }

    /** Address and mask, one after the other (RFC 5280, 4.2.1.10). */
    private static byte[] range(String written) {
        String[] parts = written.split("/");
        byte[] address = InetAddress.ofLiteral(parts[0]).getAddress();
        int length = Integer.parseInt(parts[1]);
        byte[] bytes = new byte[2 * address.length];
        System.arraycopy(address, 0, bytes, 0, address.length);
        for (int bit = 0; bit < length; bit++) {
            bytes[address.length + bit / 8] |= (byte) (0x80 >> bit % 8);
        }
        return bytes;
    }
}
