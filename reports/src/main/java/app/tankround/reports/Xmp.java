package app.tankround.reports;

import app.tankround.reports.PdfDocument.Properties;
import java.nio.charset.StandardCharsets;

/** Metadata that declare a file as PDF/A-3a and PDF/UA-1 (ISO 19005-3, 6.6; ISO 14289-1, 5). */
final class Xmp {

    private Xmp() {}

    static byte[] of(Properties properties, String producer) {
        String packet = """
                <?xpacket begin="\uFEFF" id="W5M0MpCehiHzreSzNTczkc9d"?>
                <x:xmpmeta xmlns:x="adobe:ns:meta/">
                <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
                <rdf:Description rdf:about="" xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/" pdfaid:part="3" pdfaid:conformance="A"/>
                <rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" pdfuaid:part="1"/>
                <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">
                <dc:format>application/pdf</dc:format>
                <dc:title><rdf:Alt><rdf:li xml:lang="x-default">%1$s</rdf:li></rdf:Alt></dc:title>
                <dc:creator><rdf:Seq><rdf:li>%2$s</rdf:li></rdf:Seq></dc:creator>
                <dc:language><rdf:Bag><rdf:li>%3$s</rdf:li></rdf:Bag></dc:language>
                </rdf:Description>
                <rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/">
                <xmp:CreateDate>%4$s</xmp:CreateDate>
                <xmp:ModifyDate>%4$s</xmp:ModifyDate>
                </rdf:Description>
                <rdf:Description rdf:about="" xmlns:pdf="http://ns.adobe.com/pdf/1.3/" pdf:Producer="%5$s"/>
                <rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/" xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
                <pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
                <pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
                <pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
                <pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
                <pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
                <pdfaProperty:name>part</pdfaProperty:name>
                <pdfaProperty:valueType>Integer</pdfaProperty:valueType>
                <pdfaProperty:category>internal</pdfaProperty:category>
                <pdfaProperty:description>Part of ISO 14289 to which the file conforms</pdfaProperty:description>
                </rdf:li></rdf:Seq></pdfaSchema:property>
                </rdf:li></rdf:Bag></pdfaExtension:schemas>
                </rdf:Description>
                </rdf:RDF>
                </x:xmpmeta>
                <?xpacket end="r"?>""".formatted(
                        escape(properties.title()),
                        escape(properties.author()),
                        escape(properties.language().toLanguageTag()),
                        properties.createdAt(),
                        escape(producer));
        return packet.getBytes(StandardCharsets.UTF_8);
    }

    /** XML 1.0 knows no control characters, not even escaped. */
    private static String escape(String text) {
        return text.replaceAll("[\\p{Cntrl}\\p{Cs}\uFFFE\uFFFF]", " ")
                .replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;");
    }
}
