package app.tankround.rounds.web;

import app.tankround.clients.SiteService;
import app.tankround.clients.SiteView;
import app.tankround.rounds.RoundId;
import app.tankround.rounds.RoundService;
import app.tankround.rounds.RoundView;
import app.tankround.rounds.StopView;
import app.tankround.web.NotFound;
import java.io.StringWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.springframework.http.HttpHeaders;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import tools.jackson.databind.json.JsonMapper;

/** A round as other programs read it: GeoJSON (RFC 7946) and GPX 1.1. */
@Controller
class RoundFiles {

    private static final String GPX = "http://www.topografix.com/GPX/1/1";

    private final RoundService rounds;
    private final SiteService sites;
    private final JsonMapper json;

    RoundFiles(RoundService rounds, SiteService sites, JsonMapper json) {
        this.rounds = rounds;
        this.sites = sites;
        this.json = json;
    }

    @GetMapping("/rounds/{id}/round.geojson")
    ResponseEntity<String> geoJson(@PathVariable RoundId id) {
        RoundView round = rounds.require(id);
        List<Object> features = new ArrayList<>();
        List<List<Double>> line = new ArrayList<>();
        SiteView depot = depot(round);
        features.add(feature("Point", position(depot), Map.of("name", depot.title(), "depot", true)));
        line.add(position(depot));
        for (StopView stop : round.stops()) {
            SiteView site = sites.require(stop.siteId());
            Map<String, Object> properties = new LinkedHashMap<>();
            properties.put("order", stop.position());
            properties.put("name", site.title());
            properties.put("arrives", stop.arrives().toString());
            properties.put("starts", stop.starts().toString());
            properties.put("departs", stop.departs().toString());
            features.add(feature("Point", position(site), properties));
            line.add(position(site));
        }
        line.add(position(depot));
        features.add(feature(
                "LineString",
                line,
                Map.of("name", round.code(), "date", round.date().toString())));
        Map<String, Object> collection = new LinkedHashMap<>();
        collection.put("type", "FeatureCollection");
        collection.put("features", features);
        return file("application/geo+json", round.code() + ".geojson", json.writeValueAsString(collection));
    }

    private static Map<String, Object> feature(String type, Object coordinates, Map<String, Object> properties) {
        Map<String, Object> feature = new LinkedHashMap<>();
        feature.put("type", "Feature");
        feature.put("geometry", Map.of("type", type, "coordinates", coordinates));
        feature.put("properties", properties);
        return feature;
    }

    /** Longitude first, RFC 7946, 3.1.1. */
    private static List<Double> position(SiteView site) {
        return List.of(site.longitude(), site.latitude());
    }

    @GetMapping("/rounds/{id}/round.gpx")
    ResponseEntity<String> gpx(@PathVariable RoundId id) throws XMLStreamException {
        RoundView round = rounds.require(id);
        StringWriter text = new StringWriter();
        XMLStreamWriter xml = XMLOutputFactory.newFactory().createXMLStreamWriter(text);
        xml.writeStartDocument("UTF-8", "1.0");
        xml.setDefaultNamespace(GPX);
        xml.writeStartElement(GPX, "gpx");
        xml.writeDefaultNamespace(GPX);
        xml.writeAttribute("version", "1.1");
        xml.writeAttribute("creator", "Tankround");
        xml.writeStartElement(GPX, "rte");
        element(xml, "name", round.code());
        SiteView depot = depot(round);
        point(xml, depot, depot.title());
        for (StopView stop : round.stops()) {
            SiteView site = sites.require(stop.siteId());
            point(xml, site, stop.position() + " " + site.title() + " " + stop.starts());
        }
        point(xml, depot, depot.title());
        xml.writeEndElement();
        xml.writeEndElement();
        xml.writeEndDocument();
        xml.close();
        return file("application/gpx+xml", round.code() + ".gpx", text.toString());
    }

    private static void point(XMLStreamWriter xml, SiteView site, String name) throws XMLStreamException {
        xml.writeStartElement(GPX, "rtept");
        xml.writeAttribute("lat", Double.toString(site.latitude()));
        xml.writeAttribute("lon", Double.toString(site.longitude()));
        element(xml, "name", name);
        xml.writeEndElement();
    }

    private static void element(XMLStreamWriter xml, String name, String text) throws XMLStreamException {
        xml.writeStartElement(GPX, name);
        xml.writeCharacters(text);
        xml.writeEndElement();
    }

    private SiteView depot(RoundView round) {
        return sites.ofDepot(round.van().depotId())
                .orElseThrow(() -> new NotFound("depot", round.van().depotId()));
    }

    private static ResponseEntity<String> file(String type, String name, String content) {
        return ResponseEntity.ok()
                .header(HttpHeaders.CONTENT_TYPE, type + ";charset=UTF-8")
                .header(HttpHeaders.CONTENT_DISPOSITION, "attachment; filename=\"" + name + "\"")
                .body(content);
    }
}
