-- Rows as a business of schema version 202611251631 has them, at least one in every table. Never edited: it is the past.
-- Every value that a column's check allows, every verdict, every instrument status and every kind of answer occurs.

insert into business (id, name, email, phone, address, currency, country, locale, zone, unit_system, gravity_reference, salt_yield, version) values
    ('b0000000-0000-7000-8000-000000000001', 'Lantern Pier Aquatics', 'office@lanternpier.example', '+44 1632 960100', E'4 Rope Walk\nHarbourside', 'GBP', 'GB', 'en-GB', 'Europe/London', 'US_CUSTOMARY', '60F/60F', 0.86, 4);

insert into person (id, sign_in_name, name, role, password_hash, locale, active, version) values
    ('c0000000-0000-7000-8000-000000000001', 'inga', 'Inga Brandsma', 'OWNER', '$argon2id$v=19$m=16384,t=2,p=1$c2FsdHNhbHRzYWx0c2FsdA$9q0b1cX2d3e4f5a6b7c8d9e0f1a2b3c4', 'en-GB', true, 3),
    ('c0000000-0000-7000-8000-000000000002', 'olu', 'Olu Adair', 'OFFICE', null, 'en-US', true, 1),
    ('c0000000-0000-7000-8000-000000000003', 'tomas', 'Tomas Quill', 'TECHNICIAN', null, 'de-DE', true, 2),
    ('c0000000-0000-7000-8000-000000000004', 'mere', 'Mere Tane', 'TECHNICIAN', null, 'en-GB', false, 5),
    ('c0000000-0000-7000-8000-000000000005', 'guest', 'Bellwether front desk', 'CLIENT', null, 'en-GB', true, 0);

insert into sign_in_link (token_hash, person_id, purpose, made_at, valid_until, used_at) values
    ('\x000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f', null, 'FIRST_OWNER', '2026-01-05 08:00:00+00', '2026-01-12 08:00:00+00', '2026-01-05 08:03:12.345678+00'),
    ('\xff0102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f', 'c0000000-0000-7000-8000-000000000003', 'SIGN_IN', '2026-11-24 06:30:00+00', '2026-11-25 06:30:00+00', null);

insert into change_log (changed_at, person_id, subject_kind, subject_id, action, detail) values
    ('2026-01-05 08:10:00+00', null, 'business', '-', 'set-up', '{"name": "Lantern Pier Aquatics"}'),
    ('2026-02-01 09:00:00.000001+00', 'c0000000-0000-7000-8000-000000000002', 'client', 'd0000000-0000-7000-8000-000000000001', 'changed', '{"phone": ["", "+44 1632 960111"], "name": ["Bellwether", "Bellwether Hotel"]}'),
    ('2026-02-03 11:30:00+00', 'c0000000-0000-7000-8000-000000000001', 'water-system', 'f0000000-0000-7000-8000-000000000001', 'targets-changed', '{"before": [], "after": ["TargetRange[quantity=SALINITY]"]}');

insert into depot (id, code, name, version) values
    ('40000000-0000-7000-8000-000000000001', 'D-1', 'Rope Walk depot', 2);

insert into van (id, code, name, depot_id, payload_kg, fixed_load_kg, drum_l, drum_empty_kg, technician_id, leaves_at, version) values
    ('40000000-0000-7000-8000-000000000011', 'V-1', 'Blue van', '40000000-0000-7000-8000-000000000001', 780.5, 112.25, 25, 1.35, 'c0000000-0000-7000-8000-000000000003', '07:45', 3),
    ('40000000-0000-7000-8000-000000000012', 'V-2', 'Spare', '40000000-0000-7000-8000-000000000001', 600, 0, 30.28, 1.8, null, '08:00', 0);

insert into spring_session (primary_id, session_id, creation_time, last_access_time, max_inactive_interval, expiry_time, principal_name) values
    ('11111111-1111-4111-8111-111111111111', '22222222-2222-4222-8222-222222222222', 1764054000000, 1764057600000, 50400, 1764108000000, 'inga');

insert into spring_session_attributes (session_primary_id, attribute_name, attribute_bytes) values
    ('11111111-1111-4111-8111-111111111111', 'SPRING_SECURITY_CONTEXT', '\xaced0005');

insert into stored_file (id, name, media_type, sha256, size_bytes, content, stored_by, stored_at) values
    ('60000000-0000-7000-8000-000000000001', 'V-00001-1.pdf', 'application/pdf', sha256('%PDF-1.7 first'), 14, '%PDF-1.7 first', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 15:00:00+00'),
    ('60000000-0000-7000-8000-000000000002', 'V-00001-2.pdf', 'application/pdf', sha256('%PDF-1.7 second'), 15, '%PDF-1.7 second', null, '2026-11-20 15:00:00+00'),
    ('60000000-0000-7000-8000-000000000003', 'photo.jpg', 'image/jpeg', sha256('\xffd8ffe000104a464946'), 10, '\xffd8ffe000104a464946', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:31:00+00');

insert into document_version (id, kind, subject_id, number, file_id, made_by, made_at) values
    ('60000000-0000-7000-8000-000000000011', 'visit-report', 'e0000000-0000-7000-8000-000000000001', 1, '60000000-0000-7000-8000-000000000001', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 15:00:01+00'),
    ('60000000-0000-7000-8000-000000000012', 'visit-report', 'e0000000-0000-7000-8000-000000000001', 2, '60000000-0000-7000-8000-000000000002', null, '2026-11-20 15:00:01+00');

insert into outgoing_mail (id, recipient, subject, body, file_id, queued_by, queued_at, sent_at, failure) values
    ('60000000-0000-7000-8000-000000000021', 'R. Castellane <desk@bellwether.example>', 'Report V-00001', E'Good day,\nthe report is attached.', '60000000-0000-7000-8000-000000000001', 'c0000000-0000-7000-8000-000000000002', '2026-11-02 16:00:00+00', '2026-11-02 16:00:04+00', null),
    ('60000000-0000-7000-8000-000000000022', 'gone@bellwether.example', 'Report V-00001', 'The report is attached.', '60000000-0000-7000-8000-000000000002', 'c0000000-0000-7000-8000-000000000002', '2026-11-20 16:00:00+00', null, '550 no such mailbox'),
    ('60000000-0000-7000-8000-000000000023', 'desk@bellwether.example', 'A question', 'No attachment.', null, null, '2026-11-25 06:00:00+00', null, null);

insert into scheduled_tasks (task_name, task_instance, task_data, execution_time, picked, picked_by, last_success, last_failure, consecutive_failures, last_heartbeat, version, priority, state) values
    ('send-mail', '60000000-0000-7000-8000-000000000022', '\xaced00057372', '2026-11-25 06:05:00+00', true, 'office-pc', '2026-11-24 06:05:00+00', '2026-11-25 06:00:00+00', 3, '2026-11-25 06:01:00+00', 7, 10, 'ACTIVE'),
    ('due-visits', 'recurring', null, '2026-11-26 02:00:00+00', false, null, null, null, 0, null, 1, null, null);

insert into followup (id, code, args, urgency, subject_kind, subject_id, topic, page, opened_at, settled_at, settled_by, settled_note) values
    ('70000000-0000-7000-8000-000000000001', 'readings.became-doubtful', '["R-1", "12", "3"]', 'NOW', 'instrument', '80000000-0000-7000-8000-000000000001', 'instrument-doubt:R-1', '/instruments/80000000-0000-7000-8000-000000000001', '2026-11-20 14:00:00+00', null, null, null),
    ('70000000-0000-7000-8000-000000000002', 'readings.became-doubtful', '["R-1", "1", "1"]', 'TODAY', 'instrument', '80000000-0000-7000-8000-000000000001', 'instrument-doubt:R-1', '/instruments/80000000-0000-7000-8000-000000000001', '2026-06-01 14:00:00+00', '2026-06-02 08:00:00+00', 'c0000000-0000-7000-8000-000000000001', 'Measured again with the other one.'),
    ('70000000-0000-7000-8000-000000000003', 'stock.short', '["Sock 180 mm"]', 'SOON', 'stock', '90000000-0000-7000-8000-000000000051', 'stock:sock-180', '/stock', '2026-10-01 14:00:00+00', '2026-10-03 09:00:00+00', null, null);

insert into client (id, code, name, billing_address, email, phone, notes, version) values
    ('d0000000-0000-7000-8000-000000000001', 'C-001', 'Bellwether Hotel', E'1 Quay Street\nHarbourside', 'accounts@bellwether.example', '+44 1632 960111', E'Ring first.\nDog in the yard.', 6),
    ('d0000000-0000-7000-8000-000000000002', 'C-002', 'Private house, Mill Lane', null, null, null, null, 0);

insert into contact (id, code, client_id, name, role, phone, email, receives_reports, version) values
    ('d0000000-0000-7000-8000-000000000011', 'P-001', 'd0000000-0000-7000-8000-000000000001', 'R. Castellane', 'Front desk', '+44 1632 960112', 'desk@bellwether.example', true, 2),
    ('d0000000-0000-7000-8000-000000000012', 'P-002', 'd0000000-0000-7000-8000-000000000002', 'J. Osei', null, null, null, false, 0);

insert into site (id, code, client_id, depot_id, name, street, postal_code, locality, latitude, longitude, access_notes, attended_from, attended_until, own_tap, own_drain, own_ro_di, mixing_barrel, version) values
    ('d0000000-0000-7000-8000-000000000021', 'S-001', 'd0000000-0000-7000-8000-000000000001', null, 'Quay Street', '1 Quay Street', 'HB1 4QT', 'Harbourside', 52.123456, -1.654321, 'Goods lift at the back.', '08:00', '17:30', true, true, false, false, 3),
    ('d0000000-0000-7000-8000-000000000022', 'S-002', 'd0000000-0000-7000-8000-000000000002', null, 'Mill Lane', null, null, null, 52.2, -1.7, null, null, null, true, false, true, true, 0),
    ('d0000000-0000-7000-8000-000000000023', 'S-DEPOT', null, '40000000-0000-7000-8000-000000000001', 'Rope Walk', '4 Rope Walk', 'HB1 1AA', 'Harbourside', 52.1, -1.6, null, null, null, true, true, true, true, 1);

insert into water_system (id, code, site_id, name, kind, infection_class, class_since, volume_basis, net_volume_l, display_volume_l, displacement_l, sump_volume_l, started_on, evaporation_l_day, notes, active, version) values
    ('f0000000-0000-7000-8000-000000000001', 'W-001', 'd0000000-0000-7000-8000-000000000021', 'Lobby reef', 'REEF', 'HEALTHY', '2025-03-01', 'CALCULATED', 636.4, 600, 72.5, 108.9, '2025-02-14', 6.25, 'Return pump hums.', true, 8),
    ('f0000000-0000-7000-8000-000000000002', 'W-002', 'd0000000-0000-7000-8000-000000000021', 'Bar', 'FISH_ONLY', 'NEW', '2026-11-01', 'STATED', 340, null, null, null, null, 2, null, true, 0),
    ('f0000000-0000-7000-8000-000000000003', 'W-003', 'd0000000-0000-7000-8000-000000000022', 'Study', 'FRESHWATER', 'SUSPECTED', '2026-11-10', 'STATED', 120, null, null, null, null, 0, null, true, 1),
    ('f0000000-0000-7000-8000-000000000004', 'W-004', 'd0000000-0000-7000-8000-000000000022', 'Hall', 'PLANTED', 'TREATMENT', '2026-11-12', 'STATED', 180, null, null, null, null, 0.5, null, true, 2),
    ('f0000000-0000-7000-8000-000000000005', 'W-005', 'd0000000-0000-7000-8000-000000000022', 'Pond room', 'COLDWATER', 'HEALTHY', '2024-05-01', 'STATED', 2500, null, null, null, null, 10, null, true, 0),
    ('f0000000-0000-7000-8000-000000000006', 'W-006', 'd0000000-0000-7000-8000-000000000021', 'Rift one', 'TANGANYIKA', 'HEALTHY', '2024-05-01', 'STATED', 400, null, null, null, null, 1, null, true, 0),
    ('f0000000-0000-7000-8000-000000000007', 'W-007', 'd0000000-0000-7000-8000-000000000021', 'Rift two', 'MALAWI', 'HEALTHY', '2024-05-01', 'STATED', 450, null, null, null, null, 1, null, false, 4),
    ('f0000000-0000-7000-8000-000000000008', 'W-008', 'd0000000-0000-7000-8000-000000000021', 'Mangrove', 'BRACKISH', 'HEALTHY', '2024-05-01', 'STATED', 300, null, null, null, null, 1, null, true, 0),
    ('f0000000-0000-7000-8000-000000000009', 'W-009', 'd0000000-0000-7000-8000-000000000023', 'Hospital', 'HYPOSALINITY', 'QUARANTINE', '2026-11-05', 'STATED', 150, null, null, null, null, 1, null, true, 0),
    ('f0000000-0000-7000-8000-00000000000a', 'W-010', 'd0000000-0000-7000-8000-000000000021', 'Kitchen', 'LIVE_SEAFOOD', 'HEALTHY', '2026-01-01', 'STATED', 800, null, null, null, null, 3, null, true, 0),
    ('f0000000-0000-7000-8000-00000000000b', 'W-011', 'd0000000-0000-7000-8000-000000000023', 'Drum store', 'SUPPLY', 'HEALTHY', '2026-01-01', 'STATED', 1000, null, null, null, null, 0, null, true, 0);

insert into sample_point (id, water_system, position, name) values
    ('f0000000-0000-7000-8000-000000000011', 'f0000000-0000-7000-8000-000000000001', 0, 'Display'),
    ('f0000000-0000-7000-8000-000000000012', 'f0000000-0000-7000-8000-000000000001', 1, 'Sump'),
    ('f0000000-0000-7000-8000-000000000013', 'f0000000-0000-7000-8000-00000000000b', 0, 'After the resin');

insert into target (water_system, quantity, low, high, unit, gravity_reference) values
    ('f0000000-0000-7000-8000-000000000001', 'SALINITY', 1.0250, 1.0270, 'SG', '20/20'),
    ('f0000000-0000-7000-8000-000000000001', 'NITRATE', 1, 15.0, 'mg/L', null),
    ('f0000000-0000-7000-8000-000000000001', 'TEMPERATURE', 24, 27, 'degC', null),
    ('f0000000-0000-7000-8000-000000000002', 'CALCIUM', 350, null, 'mg/L', null),
    ('f0000000-0000-7000-8000-000000000002', 'AMMONIA', null, 0, 'mg/L', null);

insert into tank (id, code, water_system_id, name, material, volume_l, version) values
    ('f0000000-0000-7000-8000-000000000021', 'T-001', 'f0000000-0000-7000-8000-000000000001', 'Lobby display', 'GLASS', 600, 1),
    ('f0000000-0000-7000-8000-000000000022', 'T-002', 'f0000000-0000-7000-8000-000000000001', 'Frag shelf', 'ACRYLIC', null, 0);

insert into equipment (id, code, water_system_id, kind, name, installed_on, notes, version) values
    ('f0000000-0000-7000-8000-000000000031', 'E-001', 'f0000000-0000-7000-8000-000000000001', 'Return pump', 'Pump, 3000 L/h', '2025-02-14', 'On a residual current device.', 2),
    ('f0000000-0000-7000-8000-000000000032', 'E-002', 'f0000000-0000-7000-8000-000000000002', 'Heater', 'Heater 300 W', null, null, 0);

insert into livestock (id, code, water_system_id, common_name, scientific_name, quantity, added_on, will_be_eaten, version) values
    ('f0000000-0000-7000-8000-000000000041', 'L-001', 'f0000000-0000-7000-8000-000000000001', 'Clownfish', 'Amphiprion ocellaris', 2, '2025-04-01', false, 1),
    ('f0000000-0000-7000-8000-000000000042', 'L-002', 'f0000000-0000-7000-8000-00000000000a', 'Lobster', null, 14, null, true, 9);

insert into instrument (id, code, name, kind, quantity, unit, gravity_reference, graduation, resolution, permitted_error, check_interval_days, lot, expires_on, purchased_on, retired_on, holder_id, version) values
    ('80000000-0000-7000-8000-000000000001', 'R-1', 'Refractometer, blue van', 'REFRACTOMETER', 'SALINITY', 'SG', '20/20', 'SEAWATER', 0.0005, 0.001, 30, null, null, '2024-01-10', null, 'c0000000-0000-7000-8000-000000000003', 3),
    ('80000000-0000-7000-8000-000000000002', 'R-2', 'Brine refractometer', 'REFRACTOMETER', 'SALINITY', 'SG', '60F/60F', 'NACL', 0.001, 0.001, 30, null, null, null, '2026-03-01', null, 1),
    ('80000000-0000-7000-8000-000000000003', 'H-1', 'Hydrometer', 'HYDROMETER', 'SALINITY', 'SG', '60F/60F', null, 0.0005, 0.001, 365, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000004', 'A-1', 'Swing arm', 'SWING_ARM', 'SALINITY', 'SG', '60F/60F', null, 0.001, 0.002, 90, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000005', 'M-1', 'Conductivity meter', 'CONDUCTIVITY_METER', 'SALINITY', 'mS/cm', null, null, 0.1, 0.5, 30, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000006', 'D-1', 'TDS pen', 'TDS_PEN', 'DISSOLVED_SOLIDS', 'mg/L', null, null, 1, 2, 180, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000007', 'PH-1', 'pH meter', 'PH_METER', 'PH', 'pH', null, null, 0.01, 0.05, 14, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000008', 'TH-1', 'Thermometer', 'THERMOMETER', 'TEMPERATURE', 'degC', null, null, 0.1, 0.3, 365, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000009', 'O-1', 'Oxygen probe', 'OXYGEN_PROBE', 'OXYGEN', 'mg/L', null, null, 0.1, 0.3, 30, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-00000000000a', 'K-1', 'Nitrate drops', 'TEST_KIT', 'NITRATE', 'mg/L', null, null, 1, 2, 365, 'N-77', '2027-02-28', null, null, null, 0),
    ('80000000-0000-7000-8000-00000000000b', 'F-1', 'Photometer', 'PHOTOMETER', 'PHOSPHATE', 'mg/L', null, null, 0.01, 0.04, 180, null, null, null, null, null, 0);

insert into standard (id, code, name, quantity, value, unit, uncertainty, value_temperature_c, lot, opened_on, expires_on, version) values
    ('80000000-0000-7000-8000-000000000011', 'ST-1', 'Seawater standard', 'SALINITY', 35.00, 'S', 0.10, 25, 'L-2201', '2026-10-01', '2027-10-01', 1),
    ('80000000-0000-7000-8000-000000000012', 'ST-0', 'RO/DI water', 'SALINITY', 0, 'S', 0, null, null, null, null, 0);

insert into calibration (id, code, instrument_id, standard_id, performed_at, person_id, as_found, as_left, standard_value, standard_unit, standard_uncertainty, standard_lot, temperature_c, note, recorded_at) values
    ('80000000-0000-7000-8000-000000000021', 'CAL-001', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000011', '2026-05-01 07:30:00+00', 'c0000000-0000-7000-8000-000000000003', 1.0264, 1.0264, 35.00, 'S', 0.10, 'L-2107', 20.5, 'Good.', '2026-05-01 07:31:00+00'),
    ('80000000-0000-7000-8000-000000000022', 'CAL-002', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000011', '2026-11-20 13:00:00+00', 'c0000000-0000-7000-8000-000000000003', 1.0185, 1.0265, 35.00, 'S', 0.10, 'L-2201', 21, 'Reads low; adjusted.', '2026-11-20 13:05:00+00'),
    ('80000000-0000-7000-8000-000000000023', 'CAL-003', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000012', '2026-11-20 13:00:00+00', 'c0000000-0000-7000-8000-000000000003', 0.9920, 1.0000, 0, 'S', 0, null, null, null, '2026-11-20 13:05:00+00'),
    ('80000000-0000-7000-8000-000000000024', 'CAL-004', '80000000-0000-7000-8000-000000000003', '80000000-0000-7000-8000-000000000012', '2026-09-01 07:00:00+00', null, 1.0000, 1.0000, 0, 'S', 0, null, null, null, '2026-09-01 07:05:00+00');

insert into reading (id, water_system_id, sample_point_id, quantity, answer, value, upper_value, unit, gravity_reference, sample_temperature_c, instrument_id, kit_lot, not_measured_because, taken_at, person_id, visit_id, replaces_id, reason, recorded_at) values
    ('90000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000011', 'SALINITY', 'VALUE', 1.0250, null, 'SG', '20/20', 24.5, '80000000-0000-7000-8000-000000000001', null, null, '2026-11-02 09:40:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000001', null, null, '2026-11-02 09:40:05+00'),
    ('90000000-0000-7000-8000-000000000002', 'f0000000-0000-7000-8000-000000000001', null, 'NITRATE', 'BETWEEN', 10, 25, 'mg/L', null, null, '80000000-0000-7000-8000-00000000000a', 'N-77', null, '2026-11-02 09:45:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000001', null, null, '2026-11-02 09:45:05+00'),
    ('90000000-0000-7000-8000-000000000003', 'f0000000-0000-7000-8000-000000000001', null, 'AMMONIA', 'BELOW_DETECTION', 0.05, null, 'mg/L', null, null, null, 'A-13', null, '2026-11-02 09:46:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000001', null, null, '2026-11-02 09:46:05+00'),
    ('90000000-0000-7000-8000-000000000004', 'f0000000-0000-7000-8000-000000000003', null, 'NITRATE', 'ABOVE_RANGE', 100, null, 'mg/L', null, null, '80000000-0000-7000-8000-00000000000a', 'N-77', null, '2026-11-03 09:46:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-03 09:46:05+00'),
    ('90000000-0000-7000-8000-000000000005', 'f0000000-0000-7000-8000-000000000001', null, 'PH', 'NOT_MEASURED', null, null, 'pH', null, null, null, null, 'Probe left at the depot.', '2026-11-02 09:47:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000001', null, null, '2026-11-02 09:47:05+00'),
    ('90000000-0000-7000-8000-000000000006', 'f0000000-0000-7000-8000-000000000001', null, 'ALKALINITY', 'VALUE', 80, null, 'dKH', null, null, null, null, null, '2026-11-02 09:48:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000001', null, null, '2026-11-02 09:48:05+00'),
    ('90000000-0000-7000-8000-000000000007', 'f0000000-0000-7000-8000-000000000001', null, 'ALKALINITY', 'VALUE', 8.0, null, 'dKH', null, null, null, null, null, '2026-11-02 09:48:00+00', 'c0000000-0000-7000-8000-000000000002', 'e0000000-0000-7000-8000-000000000001', '90000000-0000-7000-8000-000000000006', 'The point was forgotten.', '2026-11-02 12:00:00+00'),
    ('90000000-0000-7000-8000-000000000008', 'f0000000-0000-7000-8000-000000000002', null, 'SALINITY', 'VALUE', 1.0215, null, 'SG', '60F/60F', 25, '80000000-0000-7000-8000-000000000003', null, null, '2026-11-04 10:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-04 10:00:05+00'),
    ('90000000-0000-7000-8000-000000000009', 'f0000000-0000-7000-8000-000000000002', null, 'SALINITY', 'VALUE', 34, null, 'S', null, null, '80000000-0000-7000-8000-000000000005', null, null, '2026-11-05 10:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-05 10:00:05+00'),
    ('90000000-0000-7000-8000-00000000000a', 'f0000000-0000-7000-8000-000000000002', null, 'TEMPERATURE', 'VALUE', 77.90, null, 'degF', null, null, '80000000-0000-7000-8000-000000000008', null, null, '2026-11-05 10:01:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-05 10:01:05+00'),
    ('90000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-000000000013', 'DISSOLVED_SOLIDS', 'VALUE', 6, null, 'mg/L', null, null, '80000000-0000-7000-8000-000000000006', null, null, '2026-11-06 07:01:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-06 07:01:05+00');

-- The first reading of the refractometer counted as inside until the check of 20 November failed.
insert into assessment (reading_id, rule_version, verdict, verdict_as_read, instrument_status, trusted, doubtful, corrected_value, uncertainty, salinity, salinity_uncertainty, reasons, calibration_ids, target_low, target_high, computed_at, latest) values
    ('90000000-0000-7000-8000-000000000001', 1, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0249, 0.00071234567890123, 33.104999999999997, 0.94, '[]', array['80000000-0000-7000-8000-000000000021']::uuid[], 1.0250, 1.0270, '2026-11-02 09:40:05+00', false),
    ('90000000-0000-7000-8000-000000000001', 2, 'ABOVE', 'INSIDE', 'FAILED', false, true, 1.0330000000000001, 0.0011, 43.299999999999997, 1.4, '[{"code": "READS_LOW_BY", "args": ["0.008"]}, {"code": "LATER_CHECK_FAILED", "args": ["0.008"]}, {"code": "EXTRAPOLATED", "args": ["43.3"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000023']::uuid[], 1.0250, 1.0270, '2026-11-20 13:05:01.234567+00', true),
    ('90000000-0000-7000-8000-000000000002', 1, 'UNDECIDED', 'UNDECIDED', null, true, false, 17.5, 7.5, null, null, '[]', array[]::uuid[], 1, 15.0, '2026-11-02 09:45:05+00', true),
    ('90000000-0000-7000-8000-000000000003', 1, 'UNDECIDED', 'INSIDE', null, true, false, null, null, null, null, '[]', array[]::uuid[], null, 0, '2026-11-02 09:46:05+00', true),
    ('90000000-0000-7000-8000-000000000004', 1, 'NO_TARGET', 'NO_TARGET', null, true, false, null, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-03 09:46:05+00', true),
    ('90000000-0000-7000-8000-000000000005', 1, 'NO_TARGET', 'NO_TARGET', null, false, false, null, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-02 09:47:05+00', true),
    ('90000000-0000-7000-8000-000000000006', 1, 'ABOVE', 'ABOVE', null, true, false, 80, 1, null, null, '[]', array[]::uuid[], 7, 11, '2026-11-02 09:48:05+00', true),
    ('90000000-0000-7000-8000-000000000007', 1, 'INSIDE', 'INSIDE', null, true, false, 8, 1, null, null, '[]', array[]::uuid[], 7, 11, '2026-11-02 12:00:00+00', true),
    ('90000000-0000-7000-8000-000000000008', 1, 'BELOW', 'BELOW', 'ZERO_CHECKED_ONLY', false, false, 1.0215, 0.002, 28.6, 2.7, '[{"code": "WORKING_RANGE_UNCHECKED", "args": ["1"]}]', array['80000000-0000-7000-8000-000000000024']::uuid[], 30, 35, '2026-11-04 10:00:05+00', true),
    ('90000000-0000-7000-8000-000000000009', 1, 'UNDECIDED', 'INSIDE', 'NEVER_CHECKED', false, false, 34, 2, 34, 2, '[{"code": "NEVER_CHECKED", "args": ["2"]}]', array[]::uuid[], 30, 35, '2026-11-05 10:00:05+00', true),
    ('90000000-0000-7000-8000-00000000000a', 1, 'NO_TARGET', 'NO_TARGET', 'OVERDUE', false, false, 25.5, 0.5, null, null, '[{"code": "CHECK_OVERDUE_DAYS", "args": ["41"]}]', array[]::uuid[], null, null, '2026-11-05 10:01:05+00', true),
    ('90000000-0000-7000-8000-00000000000b', 1, 'ABOVE', 'ABOVE', 'SOUND', true, false, 6, 2, null, null, '[]', array[]::uuid[], null, 2, '2026-11-06 07:01:05+00', true);

insert into decision (id, kind, subject_kind, subject_id, page, summary_code, summary_args, person_id, decided_at) values
    ('a0000000-0000-7000-8000-000000000001', 'water-change', 'water-system', 'f0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000001', 'visits.decision.water-change', '["60", "Lobby reef"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:10:00+00'),
    ('a0000000-0000-7000-8000-000000000002', 'report-sent', 'visit', 'e0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000001/report', 'report.decision', '["V-00001", "1", "R. Castellane"]', null, '2026-11-02 16:00:00+00');

insert into decision_reading (decision_id, reading_id) values
    ('a0000000-0000-7000-8000-000000000001', '90000000-0000-7000-8000-000000000001'), ('a0000000-0000-7000-8000-000000000001', '90000000-0000-7000-8000-000000000002'), ('a0000000-0000-7000-8000-000000000002', '90000000-0000-7000-8000-000000000001');

insert into agreement (id, code, water_system_id, every_weeks, weekdays, valid_from, valid_until, minutes, price, planned_from, planned_until, version) values
    ('10000000-0000-7000-8000-000000000001', 'A-001', 'f0000000-0000-7000-8000-000000000001', 1, 'MO,TH', '2026-01-01', '2027-12-31', 60, 95.50, '2026-01-01', '2026-12-25', 4),
    ('10000000-0000-7000-8000-000000000002', 'A-002', 'f0000000-0000-7000-8000-000000000003', 4, 'FR', '2026-06-01', null, 30, 0, '2026-06-01', null, 0);

insert into agreement_task (agreement, position, kind, amount, unit, item, size_mm, interval_days) values
    ('10000000-0000-7000-8000-000000000001', 0, 'WATER_CHANGE', 10, '%', null, null, null),
    ('10000000-0000-7000-8000-000000000001', 1, 'TOP_UP', 5.5, 'L', null, null, null),
    ('10000000-0000-7000-8000-000000000001', 2, 'SOCK_SWAP', 2, 'count', null, 180, 7),
    ('10000000-0000-7000-8000-000000000001', 3, 'TEST', null, null, 'NITRATE', null, null),
    ('10000000-0000-7000-8000-000000000001', 4, 'DOSE', 12.5, 'mL', 'Alkalinity part', null, null),
    ('10000000-0000-7000-8000-000000000001', 5, 'MEDIA', 250, 'g', 'Carbon', null, null),
    ('10000000-0000-7000-8000-000000000001', 6, 'WORK', null, null, 'Clean the front pane.', null, null);

insert into planned_visit (id, agreement_id, water_system_id, site_id, due_on, state, minutes, price, tasks, done_on, dropped_reason) values
    ('10000000-0000-7000-8000-000000000011', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-02', 'DONE', 60, 95.50, '[{"kind": "WATER_CHANGE", "amount": 10, "unit": "%", "item": null, "sizeMm": null, "intervalDays": null}, {"kind": "TEST", "amount": null, "unit": null, "item": "NITRATE", "sizeMm": null, "intervalDays": null}]', '2026-11-02', null),
    ('10000000-0000-7000-8000-000000000012', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-09', 'DROPPED', 60, 95.50, '[]', null, 'Hotel closed.'),
    ('10000000-0000-7000-8000-000000000013', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-16', 'WITHDRAWN', 45, 80, '[]', null, null),
    ('10000000-0000-7000-8000-000000000014', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-30', 'DUE', 60, 99.90, '[]', null, null);

insert into stock_item (id, kind, name, size_mm, unit, unit_mass_kg, on_hand, counted_at, version) values
    ('90000000-0000-7000-8000-000000000051', 'SOCK', 'Filter sock', 180, 'count', 0.12, 14, '2026-11-24 16:00:00+00', 5),
    ('90000000-0000-7000-8000-000000000052', 'SALT', 'Salt mix', null, 'kg', 1, 62.5, '2026-11-24 16:00:00+00', 8),
    ('90000000-0000-7000-8000-000000000053', 'MEDIA', 'Carbon', null, 'g', 0.001, 4000, '2026-11-24 16:00:00+00', 1),
    ('90000000-0000-7000-8000-000000000054', 'DOSE', 'Alkalinity part', null, 'mL', 0.0011, 2500, '2026-11-24 16:00:00+00', 0),
    ('90000000-0000-7000-8000-000000000055', 'TEST_KIT', 'Nitrate drops', null, 'count', 0.2, 3, '2026-11-24 16:00:00+00', 0);

insert into round (id, code, service_date, van_id, technician_id, leaves_at, method, proven_best, driving_seconds, distance_m, returns_at, version) values
    ('20000000-0000-7000-8000-000000000001', 'RD-1', '2026-11-02', '40000000-0000-7000-8000-000000000011', 'c0000000-0000-7000-8000-000000000003', '07:45', 'EXACT', true, 2520, 31400, '15:10', 6),
    ('20000000-0000-7000-8000-000000000002', 'RD-2', '2026-11-30', '40000000-0000-7000-8000-000000000011', null, '08:00', 'LOCAL_SEARCH', false, 900, 8000, '11:00', 1),
    ('20000000-0000-7000-8000-000000000003', 'RD-3', '2026-11-30', '40000000-0000-7000-8000-000000000012', 'c0000000-0000-7000-8000-000000000004', '08:00', 'GIVEN', false, 0, 0, '08:00', 0);

insert into round_stop (id, round_id, position, site_id, arrives_at, starts_at, departs_at, late_minutes, started_at, finished_at) values
    ('20000000-0000-7000-8000-000000000011', '20000000-0000-7000-8000-000000000001', 0, 'd0000000-0000-7000-8000-000000000021', '08:10', '08:15', '09:15', 0, '2026-11-02 08:12:00+00', '2026-11-02 09:30:00+00'),
    ('20000000-0000-7000-8000-000000000012', '20000000-0000-7000-8000-000000000001', 1, 'd0000000-0000-7000-8000-000000000022', '09:40', '09:40', '10:10', 12, null, null),
    ('20000000-0000-7000-8000-000000000013', '20000000-0000-7000-8000-000000000002', 0, 'd0000000-0000-7000-8000-000000000021', '08:10', '08:15', '09:15', 0, null, null);

insert into round_stop_visit (stop_id, planned_visit_id, held) values
    ('20000000-0000-7000-8000-000000000011', '10000000-0000-7000-8000-000000000011', true),
    ('20000000-0000-7000-8000-000000000012', '10000000-0000-7000-8000-000000000014', false),
    ('20000000-0000-7000-8000-000000000013', '10000000-0000-7000-8000-000000000014', true);

insert into load_tick (id, round_id, line, amount, ticked, person_id, ticked_at) values
    ('20000000-0000-7000-8000-000000000021', '20000000-0000-7000-8000-000000000001', 'salt', 7.4, true, 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:20:00+00'),
    ('20000000-0000-7000-8000-000000000022', '20000000-0000-7000-8000-000000000001', 'salt', 7.4, false, 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:21:00+00');

insert into visit (id, code, site_id, service_date, round_id, stop_id, technician_id, planned_visits, started_at, finished_at, version) values
    ('e0000000-0000-7000-8000-000000000001', 'V-00001', 'd0000000-0000-7000-8000-000000000021', '2026-11-02', '20000000-0000-7000-8000-000000000001', '20000000-0000-7000-8000-000000000011', 'c0000000-0000-7000-8000-000000000003', array['10000000-0000-7000-8000-000000000011']::uuid[], '2026-11-02 08:12:00+00', '2026-11-02 10:30:00+00', 2),
    ('e0000000-0000-7000-8000-000000000002', 'V-00002', 'd0000000-0000-7000-8000-000000000022', '2026-11-25', null, null, 'c0000000-0000-7000-8000-000000000003', array[]::uuid[], null, null, 0);
select setval('visit_number', 2);
select setval('round_number', 3);

insert into visit_entry (id, visit_id, kind, field, counts, water_system_id, body, facts, author_id, entered_at, entered_offset, happened_at, received_at) values
    ('e0000000-0000-7000-8000-000000000011', 'e0000000-0000-7000-8000-000000000001', 'visit.start', 'start', true, null, '{}', '{}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 08:12:00+00', 'Z', '2026-11-02 08:12:00+00', '2026-11-02 08:12:01+00'),
    ('e0000000-0000-7000-8000-000000000012', 'e0000000-0000-7000-8000-000000000001', 'visit.reading', 'reading/f0000000-0000-7000-8000-000000000001/SALINITY', true, 'f0000000-0000-7000-8000-000000000001', '{"system": "f0000000-0000-7000-8000-000000000001", "quantity": "SALINITY", "value": "1,0250", "unit": "SG"}', '{"reading": "90000000-0000-7000-8000-000000000001"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 09:40:00+00', '+01:00', '2026-11-02 09:40:00+00', '2026-11-02 09:40:05+00'),
    ('e0000000-0000-7000-8000-000000000013', 'e0000000-0000-7000-8000-000000000001', 'visit.water-change', 'water-change/f0000000-0000-7000-8000-000000000001', true, 'f0000000-0000-7000-8000-000000000001', '{"out": "60", "in": "60"}', '{"out": "60", "in": "60", "salinity": "35", "salinityUnit": "S"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:10:00+00', 'Z', '2026-11-02 10:10:00+00', '2026-11-02 10:10:01+00'),
    ('e0000000-0000-7000-8000-000000000014', 'e0000000-0000-7000-8000-000000000001', 'visit.note', 'note/1', false, 'f0000000-0000-7000-8000-000000000001', '{"line": "1", "text": "Anemone has moved."}', '{"text": "Anemone has moved."}', 'c0000000-0000-7000-8000-000000000004', '2026-11-02 10:12:00+00', '-05:00', '2026-11-02 10:12:00+00', '2026-11-02 12:00:00+00'),
    ('e0000000-0000-7000-8000-000000000015', 'e0000000-0000-7000-8000-000000000001', 'visit.photo', 'photo/1', true, 'f0000000-0000-7000-8000-000000000001', '{"photo": "60000000-0000-7000-8000-000000000003"}', '{"photo": "60000000-0000-7000-8000-000000000003", "caption": "Left corner"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:15:00+00', 'Z', '2026-11-02 10:15:00+00', '2026-11-02 10:31:00+00'),
    ('e0000000-0000-7000-8000-000000000016', 'e0000000-0000-7000-8000-000000000001', 'visit.finish', 'finish', true, null, '{}', '{}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:30:00+00', 'Z', '2026-11-02 10:30:00+00', '2026-11-02 10:30:01+00');

insert into inbox_entry (id, kind, subject_id, device, sequence, device_time, device_offset, canonical_hash, content, author_id, received_at, status, answer) values
    ('e0000000-0000-7000-8000-000000000012', 'visit.reading', 'e0000000-0000-7000-8000-000000000001', 'tablet-1', 2, '2026-11-02 09:40:00+00', '+01:00', sha256('{"kind":"visit.reading"}'), '{"kind":"visit.reading"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 09:40:05+00', 'applied', '{"code": "ok", "args": {"verdict": "INSIDE"}}'),
    ('e0000000-0000-7000-8000-000000000014', 'visit.note', 'e0000000-0000-7000-8000-000000000001', 'tablet-2', 1, '2026-11-02 10:12:00+00', '-05:00', sha256('{"kind":"visit.note"}'), '{"kind":"visit.note"}', 'c0000000-0000-7000-8000-000000000004', '2026-11-02 12:00:00+00', 'conflict', '{"code": "changed-meanwhile", "args": {"theirs": "Anemone open."}}'),
    ('e0000000-0000-7000-8000-000000000015', 'visit.photo', 'e0000000-0000-7000-8000-000000000001', 'tablet-1', 5, null, null, sha256('{"kind":"visit.photo"}'), '{"kind":"visit.photo"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:16:00+00', 'waiting', '{"code": "photo-missing", "args": {}}'),
    ('e0000000-0000-7000-8000-000000000017', 'load.tick', null, 'tablet-1', 6, '2026-11-02 07:00:00+00', 'Z', sha256('{"kind":"load.tick"}'), '{"kind":"load.tick"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:00:01+00', 'refused', '{"code": "unknown-line", "args": {"line": "salt"}}');

insert into report_delivery (id, visit_id, version_number, way, recipient, delivered_by, delivered_at) values
    ('e0000000-0000-7000-8000-000000000021', 'e0000000-0000-7000-8000-000000000001', 1, 'MAIL', 'desk@bellwether.example', 'c0000000-0000-7000-8000-000000000002', '2026-11-02 16:00:00+00'),
    ('e0000000-0000-7000-8000-000000000022', 'e0000000-0000-7000-8000-000000000001', 1, 'BY_HAND', 'R. Castellane', null, '2026-11-02 17:00:00+00');
