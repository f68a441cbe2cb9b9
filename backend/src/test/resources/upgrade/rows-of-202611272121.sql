-- Rows as a business of schema version 202611270620 has them, at least one in every table. Never edited: it is the past.
-- Every value that a column's check allows, every verdict, every instrument status and every kind of answer occurs, and so
-- do every part of an uncertainty and every kind of decision. Much of it comes from rows of version 202611270502.

insert into business (id, name, email, phone, address, currency, country, locale, zone, unit_system, gravity_reference, salt_yield, version, decision_rule) values
    ('b0000000-0000-7000-8000-000000000001', 'Lantern Pier Aquatics', 'office@lanternpier.example', '+44 1632 960100', E'4 Rope Walk\nHarbourside', 'GBP', 'GB', 'en-GB', 'Europe/London', 'US_CUSTOMARY', '60F/60F', 0.86, 4, 'SIMPLE_ACCEPTANCE');

insert into person (id, sign_in_name, name, role, password_hash, locale, active, version) values
    ('c0000000-0000-7000-8000-000000000001', 'inga', 'Inga Brandsma', 'OWNER', '$argon2id$v=19$m=16384,t=2,p=1$c2FsdHNhbHRzYWx0c2FsdA$9q0b1cX2d3e4f5a6b7c8d9e0f1a2b3c4', 'en-GB', true, 3),
    ('c0000000-0000-7000-8000-000000000002', 'olu', 'Olu Adair', 'OFFICE', null, 'en-US', true, 1),
    ('c0000000-0000-7000-8000-000000000003', 'tomas', 'Tomas Quill', 'TECHNICIAN', null, 'de-DE', true, 2),
    ('c0000000-0000-7000-8000-000000000004', 'mere', 'Mere Tane', 'TECHNICIAN', null, 'en-GB', false, 5),
    ('c0000000-0000-7000-8000-000000000005', 'guest', 'Bellwether front desk', 'CLIENT', null, 'en-GB', true, 0);

insert into sign_in_link (token_hash, person_id, purpose, made_at, valid_until, used_at) values
    ('\x000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f', null, 'FIRST_OWNER', '2026-01-05 08:00:00+00', '2026-01-12 08:00:00+00', '2026-01-05 08:03:12.345678+00'),
    ('\xff0102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f', 'c0000000-0000-7000-8000-000000000003', 'SIGN_IN', '2026-11-24 06:30:00+00', '2026-11-25 06:30:00+00', null);

insert into application_password (id, person_id, name, secret_hash, made_at, last_used_at) values
    ('c0000000-0000-7000-8000-000000000011', 'c0000000-0000-7000-8000-000000000002', 'Bookkeeping', sha256('first secret'), '2026-10-01 08:00:00+00', '2026-11-24 21:15:00.000002+00'),
    ('c0000000-0000-7000-8000-000000000012', 'c0000000-0000-7000-8000-000000000001', 'Never used', sha256('second secret'), '2026-10-02 08:00:00+00', null);

insert into change_log (changed_at, person_id, subject_kind, subject_id, action, detail) values
    ('2026-01-05 08:10:00+00', null, 'business', '-', 'set-up', '{"name": "Lantern Pier Aquatics"}'),
    ('2026-02-01 09:00:00.000001+00', 'c0000000-0000-7000-8000-000000000002', 'client', 'd0000000-0000-7000-8000-000000000001', 'changed', '{"phone": ["", "+44 1632 960111"], "name": ["Bellwether", "Bellwether Hotel"]}'),
    ('2026-02-03 11:30:00+00', 'c0000000-0000-7000-8000-000000000001', 'water-system', 'f0000000-0000-7000-8000-000000000001', 'targets-changed', '{"before": [], "after": ["TargetRange[quantity=SALINITY]"]}');

insert into depot (id, code, name, version) values
    ('40000000-0000-7000-8000-000000000001', 'D-1', 'Rope Walk depot', 2);

insert into van (id, code, name, depot_id, payload_kg, fixed_load_kg, drum_l, drum_empty_kg, technician_id, leaves_at, version, room_l) values
    ('40000000-0000-7000-8000-000000000011', 'V-1', 'Blue van', '40000000-0000-7000-8000-000000000001', 780.5, 112.25, 25, 1.35, 'c0000000-0000-7000-8000-000000000003', '07:45', 3, 640.5),
    ('40000000-0000-7000-8000-000000000012', 'V-2', 'Spare', '40000000-0000-7000-8000-000000000001', 600, 0, 30.28, 1.8, null, '08:00', 0, null);

insert into spring_session (primary_id, session_id, creation_time, last_access_time, max_inactive_interval, expiry_time, principal_name) values
    ('11111111-1111-4111-8111-111111111111', '22222222-2222-4222-8222-222222222222', 1764054000000, 1764057600000, 50400, 1764108000000, 'inga');

insert into spring_session_attributes (session_primary_id, attribute_name, attribute_bytes) values
    ('11111111-1111-4111-8111-111111111111', 'SPRING_SECURITY_CONTEXT', '\xaced0005');

insert into stored_file (id, name, media_type, sha256, size_bytes, content, stored_by, stored_at) values
    ('60000000-0000-7000-8000-000000000001', 'V-00001-1.pdf', 'application/pdf', sha256('%PDF-1.7 first'), 14, '%PDF-1.7 first', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 15:00:00+00'),
    ('60000000-0000-7000-8000-000000000002', 'V-00001-2.pdf', 'application/pdf', sha256('%PDF-1.7 second'), 15, '%PDF-1.7 second', null, '2026-11-20 15:00:00+00'),
    ('60000000-0000-7000-8000-000000000003', 'photo.jpg', 'image/jpeg', sha256('\xffd8ffe000104a464946'), 10, '\xffd8ffe000104a464946', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:31:00+00'),
    ('60000000-0000-7000-8000-000000000004', 'probe.png', 'image/png', sha256('\x89504e470d0a1a0a'), 8, '\x89504e470d0a1a0a', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 11:02:00+00'),
    ('60000000-0000-7000-8000-000000000005', 'signature.png', 'image/png', sha256('\x89504e470d0a1a0b'), 8, '\x89504e470d0a1a0b', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 11:20:00+00');

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
    ('70000000-0000-7000-8000-000000000003', 'stock.short', '["Sock 180 mm"]', 'SOON', 'stock', '90000000-0000-7000-8000-000000000051', 'stock:sock-180', '/stock', '2026-10-01 14:00:00+00', '2026-10-03 09:00:00+00', null, null),
    ('70000000-0000-7000-8000-000000000004', 'readings.doubt-list', '["R-1", "3", "8"]', 'NOW', 'instrument', '80000000-0000-7000-8000-000000000001', 'instrument-doubt:80000000-0000-7000-8000-000000000001', '/doubts/a0000000-0000-7000-8000-000000000021', '2026-11-21 07:05:00+00', null, null, null),
    ('70000000-0000-7000-8000-000000000005', 'plans.followup.doubted', '["Lobby reef"]', 'NOW', 'water-system', 'f0000000-0000-7000-8000-000000000001', 'plan-stopped:50000000-0000-7000-8000-000000000003', '/plans/50000000-0000-7000-8000-000000000003', '2026-11-21 07:05:01+00', '2026-11-21 09:00:00+00', 'c0000000-0000-7000-8000-000000000001', 'Drawn anew.'),
    ('70000000-0000-7000-8000-000000000006', 'plans.followup.dose-against', '["Copper solution", "Hospital", "4", "mL", "Second half of the first dose."]', 'TODAY', 'water-system', 'f0000000-0000-7000-8000-000000000009', 'dose-given-against:e0000000-0000-7000-8000-000000000003/dose/1', '/systems/f0000000-0000-7000-8000-000000000009', '2026-11-23 10:41:00+00', null, null, null);

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
    ('f0000000-0000-7000-8000-00000000000b', 'W-011', 'd0000000-0000-7000-8000-000000000023', 'Drum store', 'SUPPLY', 'HEALTHY', '2026-01-01', 'STATED', 1000, null, null, null, null, 0, null, true, 0),
    ('f0000000-0000-7000-8000-00000000000c', 'W-012', 'd0000000-0000-7000-8000-000000000023', 'Membrane plant', 'SUPPLY', 'HEALTHY', '2026-01-01', 'STATED', 60, null, null, null, '2026-01-01', 0, null, true, 2);

insert into sample_point (id, water_system, position, name) values
    ('f0000000-0000-7000-8000-000000000011', 'f0000000-0000-7000-8000-000000000001', 0, 'Display'),
    ('f0000000-0000-7000-8000-000000000012', 'f0000000-0000-7000-8000-000000000001', 1, 'Sump'),
    ('f0000000-0000-7000-8000-000000000013', 'f0000000-0000-7000-8000-00000000000b', 0, 'After the resin'),
    ('f0000000-0000-7000-8000-000000000014', 'f0000000-0000-7000-8000-00000000000c', 0, 'Feed'),
    ('f0000000-0000-7000-8000-000000000015', 'f0000000-0000-7000-8000-00000000000c', 1, 'After the carbon'),
    ('f0000000-0000-7000-8000-000000000016', 'f0000000-0000-7000-8000-00000000000c', 2, 'After the membrane'),
    ('f0000000-0000-7000-8000-000000000017', 'f0000000-0000-7000-8000-00000000000c', 3, 'After the second resin'),
    ('f0000000-0000-7000-8000-000000000018', 'f0000000-0000-7000-8000-00000000000b', 1, 'Drum 4');

insert into target (water_system, quantity, low, high, unit, gravity_reference) values
    ('f0000000-0000-7000-8000-000000000001', 'SALINITY', 1.0250, 1.0270, 'SG', '20/20'),
    ('f0000000-0000-7000-8000-000000000001', 'NITRATE', 1, 15.0, 'mg/L', null),
    ('f0000000-0000-7000-8000-000000000001', 'TEMPERATURE', 24, 27, 'degC', null),
    ('f0000000-0000-7000-8000-000000000002', 'CALCIUM', 350, null, 'mg/L', null),
    ('f0000000-0000-7000-8000-000000000002', 'AMMONIA', null, 0, 'mg/L', null);

insert into sample_point_target (sample_point, quantity, low, high, unit, gravity_reference) values
    ('f0000000-0000-7000-8000-000000000012', 'SALINITY', 1.0245, 1.0275, 'SG', '20/20'),
    ('f0000000-0000-7000-8000-000000000016', 'DISSOLVED_SOLIDS', null, 12.0, 'mg/L', null),
    ('f0000000-0000-7000-8000-000000000017', 'DISSOLVED_SOLIDS', null, 1, 'mg/L', null);

-- What the program came with is there; the business has changed some of it.
update target_preset set version = 3 where kind in ('REEF', 'FRESHWATER');
update target_preset_range set low = 2, high = 10.5 where target_preset = 'REEF' and quantity = 'NITRATE';
insert into target_preset_range (target_preset, quantity, low, high, unit, gravity_reference) values
    ('FRESHWATER', 'PHOSPHATE', null, 1.50, 'mg/L', null);

insert into calculation_note (id, water_system_id, person_id, noted_at, title, calculator, inputs, answer) values
    ('f0000000-0000-7000-8000-000000000061', 'f0000000-0000-7000-8000-000000000001', 'c0000000-0000-7000-8000-000000000003', '2026-11-09 12:00:00.25+00', 'Density of the display', 'seawater-density', '{"salinity":"35","temperature_c":"25"}', '{"results":{"density_kg_m3":1023.3412348427412,"expanded_uncertainty_kg_m3":0.02,"extrapolated":false},"units":{"density_kg_m3":"kg/m3","expanded_uncertainty_kg_m3":"kg/m3","extrapolated":""},"working":["rho(S = 35, t68 = 25.006 °C) = 1023.3412 kg/m3"],"source":"EOS-80"}');

insert into tank (id, code, water_system_id, name, material, volume_l, version) values
    ('f0000000-0000-7000-8000-000000000021', 'T-001', 'f0000000-0000-7000-8000-000000000001', 'Lobby display', 'GLASS', 600, 1),
    ('f0000000-0000-7000-8000-000000000022', 'T-002', 'f0000000-0000-7000-8000-000000000001', 'Frag shelf', 'ACRYLIC', null, 0);

insert into equipment (id, code, water_system_id, kind, name, installed_on, notes, version) values
    ('f0000000-0000-7000-8000-000000000031', 'E-001', 'f0000000-0000-7000-8000-000000000001', 'Return pump', 'Pump, 3000 L/h', '2025-02-14', 'On a residual current device.', 2),
    ('f0000000-0000-7000-8000-000000000032', 'E-002', 'f0000000-0000-7000-8000-000000000002', 'Heater', 'Heater 300 W', null, null, 0);

insert into livestock (id, code, water_system_id, common_name, scientific_name, quantity, added_on, will_be_eaten, version) values
    ('f0000000-0000-7000-8000-000000000041', 'L-001', 'f0000000-0000-7000-8000-000000000001', 'Clownfish', 'Amphiprion ocellaris', 2, '2025-04-01', false, 1),
    ('f0000000-0000-7000-8000-000000000042', 'L-002', 'f0000000-0000-7000-8000-00000000000a', 'Lobster', null, 14, null, true, 9);

insert into purification_stage (id, water_system_id, kind, name, installed_on, removed_on, meter_l, months_allowed, drop_allowed_kpa, litres_between_tests, lowest_rejection, capacity_eq, carbon_dioxide_mg_l, version) values
    ('f0000000-0000-7000-8000-000000000051', 'f0000000-0000-7000-8000-00000000000c', 'PREFILTER', 'Sediment, 5 micrometres', '2026-01-01', '2026-07-01', 0, 6, 70, null, null, null, null, 1),
    ('f0000000-0000-7000-8000-000000000052', 'f0000000-0000-7000-8000-00000000000c', 'PREFILTER', 'Sediment, 5 micrometres', '2026-07-01', null, 18250.5, 6, 70, null, null, null, null, 0),
    ('f0000000-0000-7000-8000-000000000053', 'f0000000-0000-7000-8000-00000000000c', 'CARBON', 'Carbon block', '2026-01-01', null, 0, 12, null, 5000, null, null, null, 0),
    ('f0000000-0000-7000-8000-000000000054', 'f0000000-0000-7000-8000-00000000000c', 'MEMBRANE', 'Membrane 75', '2026-01-01', null, 0, null, null, null, 0.94, null, null, 2),
    ('f0000000-0000-7000-8000-000000000055', 'f0000000-0000-7000-8000-00000000000c', 'RESIN', 'Mixed bed, last', '2026-01-01', null, null, null, null, null, null, 0.62, 4.5, 1);

insert into purification_point (sample_point_id, place) values
    ('f0000000-0000-7000-8000-000000000014', 'FEED'), ('f0000000-0000-7000-8000-000000000015', 'AFTER_CARBON'), ('f0000000-0000-7000-8000-000000000016', 'AFTER_MEMBRANE'), ('f0000000-0000-7000-8000-000000000017', 'AFTER_RESIN'), ('f0000000-0000-7000-8000-000000000018', 'CONTAINER');

insert into purification_container (water_system_id, plant_id) values
    ('f0000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-00000000000c');

insert into purification_wash (water_system_id, sample_point_id, washed_on, person_id) values
    ('f0000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-000000000018', '2026-09-30', 'c0000000-0000-7000-8000-000000000003'),
    ('f0000000-0000-7000-8000-00000000000b', null, '2026-06-30', 'c0000000-0000-7000-8000-000000000004');

insert into instrument (id, code, name, kind, quantity, unit, gravity_reference, graduation, resolution, permitted_error, check_interval_days, lot, expires_on, purchased_on, retired_on, holder_id, version, compensation, range_low, range_high) values
    ('80000000-0000-7000-8000-000000000001', 'R-1', 'Refractometer, blue van', 'REFRACTOMETER', 'SALINITY', 'SG', '20/20', 'SEAWATER', 0.0005, 0.001, 30, null, null, '2024-01-10', null, 'c0000000-0000-7000-8000-000000000003', 3, null, null, null),
    ('80000000-0000-7000-8000-000000000002', 'R-2', 'Brine refractometer', 'REFRACTOMETER', 'SALINITY', 'SG', '60F/60F', 'NACL', 0.001, 0.001, 30, null, null, null, '2026-03-01', null, 1, null, null, null),
    ('80000000-0000-7000-8000-000000000003', 'H-1', 'Hydrometer', 'HYDROMETER', 'SALINITY', 'SG', '60F/60F', null, 0.0005, 0.001, 365, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-000000000004', 'A-1', 'Swing arm', 'SWING_ARM', 'SALINITY', 'SG', '60F/60F', null, 0.001, 0.002, 90, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-000000000005', 'M-1', 'Conductivity meter', 'CONDUCTIVITY_METER', 'SALINITY', 'mS/cm', null, null, 0.1, 0.5, 30, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-000000000006', 'D-1', 'TDS pen', 'TDS_PEN', 'DISSOLVED_SOLIDS', 'mg/L', null, null, 1, 2, 180, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-000000000007', 'PH-1', 'pH meter', 'PH_METER', 'PH', 'pH', null, null, 0.01, 0.05, 14, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-000000000008', 'TH-1', 'Thermometer', 'THERMOMETER', 'TEMPERATURE', 'degC', null, null, 0.1, 0.3, 365, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-000000000009', 'O-1', 'Oxygen probe', 'OXYGEN_PROBE', 'OXYGEN', 'mg/L', null, null, 0.1, 0.3, 30, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-00000000000a', 'K-1', 'Nitrate drops', 'COLOUR_KIT', 'NITRATE', 'mg/L', null, null, 1, 2, 365, 'N-77', '2027-02-28', null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-00000000000b', 'F-1', 'Photometer', 'PHOTOMETER', 'PHOSPHATE', 'mg/L', null, null, 0.01, 0.04, 180, null, null, null, null, null, 0, null, null, null),
    ('80000000-0000-7000-8000-00000000000c', 'K-2', 'Alkalinity drops', 'TITRATION_KIT', 'ALKALINITY', 'dKH', null, null, 0.25, 0.5, 180, 'KH-9', '2027-05-31', null, null, 'c0000000-0000-7000-8000-000000000003', 0, null, 0, 20),
    ('80000000-0000-7000-8000-00000000000d', 'B-1', 'Depot balance', 'BALANCE', 'MASS', 'g', null, null, 0.1, 0.5, 365, null, null, '2025-06-01', null, null, 1, null, 0, 5000),
    ('80000000-0000-7000-8000-00000000000e', 'R-3', 'Refractometer, spare', 'REFRACTOMETER', 'SALINITY', 'SG', '20/20', 'SEAWATER', 0.0005, 0.001, 30, null, null, '2026-04-01', null, 'c0000000-0000-7000-8000-000000000003', 2, 'AUTOMATIC', 1.000, 1.070),
    ('80000000-0000-7000-8000-00000000000f', 'PH-2', 'pH meter, spare', 'PH_METER', 'PH', 'pH', null, null, 0.01, 0.05, 14, null, null, null, null, null, 4, 'NONE', 0, 14),
    ('80000000-0000-7000-8000-000000000010', 'B-2', 'Kitchen balance', 'BALANCE', 'MASS', 'g', null, null, 1, 2, 365, null, null, null, null, null, 0, null, 1, 20000);

insert into standard (id, code, name, kind, quantity, value, unit, uncertainty, value_temperature_c, lot, opened_on, expires_on, open_days, suspicious_since, suspicious_because, buffer, version) values
    ('80000000-0000-7000-8000-000000000011', 'ST-1', 'Seawater standard', 'SEAWATER', 'SALINITY', 35.00, 'S', 0.10, 25, 'L-2201', '2026-10-01', '2027-10-01', null, null, null, null, 1),
    ('80000000-0000-7000-8000-000000000012', 'ST-0', 'RO/DI water', 'PURE_WATER', 'SALINITY', 0, 'S', 0, null, null, null, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000013', 'ST-2', 'Brine of the depot', 'SODIUM_CHLORIDE', 'SALINITY', 35.02, 'S', 0.26, 20, null, '2026-11-14', '2027-02-14', 92, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000014', 'ST-3', 'Sea salt of the depot', 'SEAWATER', 'SALINITY', 33.9, 'S', 1.1, null, null, '2026-11-14', null, null, '2026-11-22', 'The bottle stood open overnight.', null, 2),
    ('80000000-0000-7000-8000-000000000015', 'ST-4', 'Potassium chloride', 'CONDUCTIVITY', 'SALINITY', 35, 'S', 0.05, 25, 'KC-4', '2026-03-01', '2026-09-01', 180, null, null, null, 0),
    ('80000000-0000-7000-8000-000000000016', 'ST-5', 'Buffer 4', 'PH_BUFFER', 'PH', 4.01, 'pH', 0.02, 25, 'B4-11', '2026-10-01', '2028-01-01', 90, null, null, 'PHTHALATE', 0),
    ('80000000-0000-7000-8000-000000000017', 'ST-6', 'Buffer 6.86', 'PH_BUFFER', 'PH', 6.86, 'pH', 0.02, 25, null, null, null, null, null, null, 'PHOSPHATE', 0),
    ('80000000-0000-7000-8000-000000000018', 'ST-7', 'Buffer 7', 'PH_BUFFER', 'PH', 7.00, 'pH', 0.02, 25, 'B7-02', '2026-10-01', '2028-01-01', 90, null, null, 'PHOSPHATE_SEVEN', 0),
    ('80000000-0000-7000-8000-000000000019', 'ST-8', 'Buffer 9.18', 'PH_BUFFER', 'PH', 9.18, 'pH', 0.02, 25, null, null, null, null, null, null, 'BORAX', 0),
    ('80000000-0000-7000-8000-00000000001a', 'ST-9', 'Buffer 10', 'PH_BUFFER', 'PH', 10.01, 'pH', 0.02, 25, null, null, null, null, null, null, 'CARBONATE', 0),
    ('80000000-0000-7000-8000-00000000001b', 'ST-10', 'Melting ice', 'REFERENCE_THERMOMETER', 'TEMPERATURE', 0.0, 'degC', 0.05, null, null, null, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-00000000001c', 'ST-11', 'Bubbled water', 'AIR_SATURATED_WATER', 'OXYGEN', 9.09, 'mg/L', 0.2, 20, null, null, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-00000000001d', 'ST-12', 'Nitrate 10', 'KNOWN_CONCENTRATION', 'NITRATE', 10.0, 'mg/L', 0.3, null, 'NO-10', '2026-08-01', '2027-08-01', 365, null, null, null, 0),
    ('80000000-0000-7000-8000-00000000001e', 'ST-13', 'Weight of 200 g', 'TEST_MASS', 'MASS', 200, 'g', 0.01, null, null, null, null, null, null, null, null, 0),
    ('80000000-0000-7000-8000-00000000001f', 'ST-14', 'Old phosphate vial', 'OTHER', 'PHOSPHATE', 0.25, 'mg/L', 0.02, null, null, null, null, null, null, null, null, 3);

insert into standard_recipe (standard_id, solute, solute_g, purity_percent, purity_give_or_take, water_g, balance_id, water_balance_id, made_on) values
    ('80000000-0000-7000-8000-000000000013', 'SODIUM_CHLORIDE', 36.5, 99.5, 0.5, 963.50, '80000000-0000-7000-8000-00000000000d', '80000000-0000-7000-8000-000000000010', '2026-11-14'),
    ('80000000-0000-7000-8000-000000000014', 'SEA_SALT', 38.0, 92, 4, 962, '80000000-0000-7000-8000-00000000000d', null, '2026-11-14');

insert into calibration (id, code, instrument_id, standard_id, performed_at, person_id, as_found, as_left, standard_value, standard_unit, standard_uncertainty, standard_lot, temperature_c, note, recorded_at, standard_state, instrument_temperature_c, adjusted, millivolts) values
    ('80000000-0000-7000-8000-000000000021', 'CAL-001', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000011', '2026-05-01 07:30:00+00', 'c0000000-0000-7000-8000-000000000003', '{1.0264}', '{1.0264}', 35.00, 'S', 0.10, 'L-2107', 20.5, 'Good.', '2026-05-01 07:31:00+00', 'SOUND', null, null, null),
    ('80000000-0000-7000-8000-000000000022', 'CAL-002', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000011', '2026-11-20 13:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{1.0185}', '{1.0265}', 35.00, 'S', 0.10, 'L-2201', 21, 'Reads low; adjusted.', '2026-11-20 13:05:00+00', 'SOUND', null, null, null),
    ('80000000-0000-7000-8000-000000000023', 'CAL-003', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000012', '2026-11-20 13:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{0.9920}', '{1.0000}', 0, 'S', 0, null, null, null, '2026-11-20 13:05:00+00', 'SOUND', null, null, null),
    ('80000000-0000-7000-8000-000000000024', 'CAL-004', '80000000-0000-7000-8000-000000000003', '80000000-0000-7000-8000-000000000012', '2026-09-01 07:00:00+00', null, '{1.0000}', '{1.0000}', 0, 'S', 0, null, null, null, '2026-09-01 07:05:00+00', 'SOUND', null, null, null),
    ('80000000-0000-7000-8000-000000000025', 'CAL-005', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000013', '2026-11-21 07:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{1.0187,1.0186,1.0187}', '{}', 35.02, 'S', 0.26, null, 20, 'Brine made on the 14th.', '2026-11-21 07:02:00+00', 'SOUND', 20.5, null, null),
    ('80000000-0000-7000-8000-000000000026', 'CAL-006', '80000000-0000-7000-8000-000000000001', '80000000-0000-7000-8000-000000000011', '2026-11-23 07:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{1.0186,1.0187}', '{1.0264,1.0265,1.0264}', 35.00, 'S', 0.10, 'L-2201', 20.2, null, '2026-11-23 07:06:00+00', 'SOUND', 20.5, 'Prism cleaned, zero screw turned.', null),
    ('80000000-0000-7000-8000-000000000027', 'CAL-007', '80000000-0000-7000-8000-00000000000e', '80000000-0000-7000-8000-000000000011', '2026-05-20 07:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{1.0266}', '{}', 35.00, 'S', 0.10, 'L-2107', 21, null, '2026-05-20 07:01:00+00', 'SOUND', 21, null, null),
    ('80000000-0000-7000-8000-000000000028', 'CAL-008', '80000000-0000-7000-8000-00000000000e', '80000000-0000-7000-8000-000000000011', '2026-11-11 07:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{1.0265,1.0265}', '{}', 35.00, 'S', 0.10, 'L-2201', 21, 'After the fall.', '2026-11-11 07:01:00+00', 'SOUND', 21, null, null),
    ('80000000-0000-7000-8000-000000000029', 'CAL-009', '80000000-0000-7000-8000-000000000005', '80000000-0000-7000-8000-000000000015', '2026-10-15 06:00:00+00', 'c0000000-0000-7000-8000-000000000002', '{53.4}', '{53.1}', 35, 'S', 0.05, 'KC-4', 24.8, 'Only the old bottle was there.', '2026-10-15 06:04:00+00', 'EXPIRED', 24.8, 'Cell constant 1.02.', null),
    ('80000000-0000-7000-8000-00000000002a', 'CAL-010', '80000000-0000-7000-8000-00000000000f', '80000000-0000-7000-8000-000000000016', '2026-11-01 06:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{4.02}', '{4.01}', 4.01, 'pH', 0.02, 'B4-11', 21.5, null, '2026-11-01 06:03:00+00', 'SOUND', null, 'Both points.', 172.4),
    ('80000000-0000-7000-8000-00000000002b', 'CAL-011', '80000000-0000-7000-8000-00000000000f', '80000000-0000-7000-8000-000000000018', '2026-11-01 06:00:00+00', 'c0000000-0000-7000-8000-000000000003', '{7.03}', '{7.01}', 7.00, 'pH', 0.02, 'B7-02', 21.5, null, '2026-11-01 06:03:00+00', 'SOUND', null, 'Both points.', -2.1),
    ('80000000-0000-7000-8000-00000000002c', 'CAL-012', '80000000-0000-7000-8000-00000000000d', '80000000-0000-7000-8000-00000000001e', '2026-10-30 09:00:00+00', null, '{200.1,200.0,200.1}', '{}', 200, 'g', 0.01, null, null, null, '2026-10-30 09:00:30+00', 'SOUND', null, null, null),
    ('80000000-0000-7000-8000-00000000002d', 'CAL-013', '80000000-0000-7000-8000-000000000004', '80000000-0000-7000-8000-000000000011', '2026-08-01 07:00:00+00', 'c0000000-0000-7000-8000-000000000004', '{1.0301}', '{}', 35.00, 'S', 0.10, 'L-2107', 22, null, '2026-08-01 07:01:00+00', 'SOUND', null, null, null);

-- Every cause and both outcomes, one still open; the swing arm had no good check before.
insert into instrument_suspicion (id, instrument_id, cause, opened_at, opened_by, check_at, doubt_from, note, closed_at, closed_by, outcome, closing_check_at) values
    ('80000000-0000-7000-8000-000000000031', '80000000-0000-7000-8000-000000000001', 'FAILED_CHECK', '2026-11-20 13:05:00+00', 'c0000000-0000-7000-8000-000000000003', '2026-11-20 13:00:00+00', '2026-05-01 07:30:00+00', 'Reads low by 0.008.', '2026-11-21 07:02:00+00', 'c0000000-0000-7000-8000-000000000003', 'CONDEMNED', '2026-11-21 07:00:00+00'),
    ('80000000-0000-7000-8000-000000000032', '80000000-0000-7000-8000-00000000000e', 'DROPPED', '2026-11-10 15:30:00+00', 'c0000000-0000-7000-8000-000000000003', null, '2026-05-20 07:00:00+00', null, '2026-11-11 07:01:00+00', 'c0000000-0000-7000-8000-000000000003', 'CLEARED', '2026-11-11 07:00:00+00'),
    ('80000000-0000-7000-8000-000000000033', '80000000-0000-7000-8000-00000000000f', 'DISAGREEMENT', '2026-11-23 10:20:00+00', null, null, '2026-11-01 06:00:00+00', 'PH-1 shows 0.3 less in the same water.', null, null, null, null),
    ('80000000-0000-7000-8000-000000000034', '80000000-0000-7000-8000-000000000004', 'FAILED_CHECK', '2026-08-01 07:01:00+00', 'c0000000-0000-7000-8000-000000000004', '2026-08-01 07:00:00+00', null, null, '2026-08-02 07:01:00+00', null, 'CONDEMNED', '2026-08-02 07:00:00+00');

insert into instrument_return (id, suspicion_id, returned_at, returned_by, check_at, reason) values
    ('80000000-0000-7000-8000-000000000041', '80000000-0000-7000-8000-000000000031', '2026-11-23 07:06:30+00', 'c0000000-0000-7000-8000-000000000001', '2026-11-23 07:00:00+00', 'Prism cleaned and set anew; passed in the seawater standard.'),
    ('80000000-0000-7000-8000-000000000042', '80000000-0000-7000-8000-000000000034', '2026-09-01 07:00:00+00', null, '2026-09-01 06:55:00+00', null);

insert into instrument_drop (id, instrument_id, dropped_at, reported_by, recorded_at) values
    ('80000000-0000-7000-8000-000000000051', '80000000-0000-7000-8000-00000000000e', '2026-11-10 15:00:00+00', 'c0000000-0000-7000-8000-000000000003', '2026-11-10 15:30:00+00'),
    ('80000000-0000-7000-8000-000000000052', '80000000-0000-7000-8000-00000000000f', '2026-11-24 09:00:00+00', null, '2026-11-24 09:10:00.5+00');

insert into instrument_drift (instrument_id, per_root_day, reckoned_at) values
    ('80000000-0000-7000-8000-000000000001', 0.0618, '2026-05-01 07:31:00+00'),
    ('80000000-0000-7000-8000-000000000001', 0.07712345678901234, '2026-11-20 13:05:00+00'),
    ('80000000-0000-7000-8000-000000000005', 0.031, '2026-10-15 06:04:00+00');

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
    ('90000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-000000000013', 'DISSOLVED_SOLIDS', 'VALUE', 6, null, 'mg/L', null, null, '80000000-0000-7000-8000-000000000006', null, null, '2026-11-06 07:01:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-06 07:01:05+00'),
    ('90000000-0000-7000-8000-00000000000c', 'f0000000-0000-7000-8000-000000000001', null, 'SALINITY', 'VALUE', 1.0255, null, 'SG', '20/20', 24.5, '80000000-0000-7000-8000-000000000001', null, null, '2026-11-09 09:40:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-09 09:40:05+00'),
    ('90000000-0000-7000-8000-00000000000d', 'f0000000-0000-7000-8000-000000000002', null, 'SALINITY', 'VALUE', 1.0150, null, 'SG', '20/20', 24, '80000000-0000-7000-8000-000000000001', null, null, '2026-11-09 10:40:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-09 10:40:05+00'),
    ('90000000-0000-7000-8000-00000000000e', 'f0000000-0000-7000-8000-000000000008', null, 'SALINITY', 'VALUE', 1.0080, null, 'SG', '20/20', 25, '80000000-0000-7000-8000-000000000001', null, null, '2026-11-10 09:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-10 09:00:05+00'),
    ('90000000-0000-7000-8000-00000000000f', 'f0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000011', 'SALINITY', 'VALUE', 1.0262, null, 'SG', '20/20', 24.5, '80000000-0000-7000-8000-000000000001', null, null, '2026-06-01 09:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-06-01 09:00:05+00'),
    ('90000000-0000-7000-8000-000000000010', 'f0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000011', 'SALINITY', 'VALUE', 1.0264, null, 'SG', '20/20', 24.5, '80000000-0000-7000-8000-00000000000e', null, null, '2026-06-01 09:02:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-06-01 09:02:05+00'),
    ('90000000-0000-7000-8000-000000000011', 'f0000000-0000-7000-8000-000000000001', null, 'SALINITY', 'VALUE', 1.0258, null, 'SG', '20/20', 24.4, '80000000-0000-7000-8000-00000000000e', null, null, '2026-11-21 09:15:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000003', null, null, '2026-11-21 09:15:05+00'),
    ('90000000-0000-7000-8000-000000000012', 'f0000000-0000-7000-8000-000000000002', null, 'SALINITY', 'VALUE', 1.0250, null, 'SG', '20/20', 24, '80000000-0000-7000-8000-000000000001', null, null, '2026-11-09 10:40:00+00', 'c0000000-0000-7000-8000-000000000002', null, '90000000-0000-7000-8000-00000000000d', 'Two digits had changed places.', '2026-11-09 10:40:05+00'),
    ('90000000-0000-7000-8000-000000000013', 'f0000000-0000-7000-8000-000000000009', null, 'SALINITY', 'VALUE', 1.0110, null, 'SG', '20/20', 26, '80000000-0000-7000-8000-000000000001', null, null, '2026-11-22 10:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-22 10:00:05+00'),
    ('90000000-0000-7000-8000-000000000014', 'f0000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-000000000018', 'SALINITY', 'VALUE', 53.0, null, 'mS/cm', null, 24, '80000000-0000-7000-8000-000000000005', null, null, '2026-11-20 06:30:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-20 06:30:05+00'),
    ('90000000-0000-7000-8000-000000000015', 'f0000000-0000-7000-8000-00000000000b', 'f0000000-0000-7000-8000-000000000018', 'DISSOLVED_SOLIDS', 'VALUE', 0, null, 'mg/L', null, null, '80000000-0000-7000-8000-000000000006', null, null, '2026-11-19 06:30:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-19 06:30:05+00'),
    ('90000000-0000-7000-8000-000000000016', 'f0000000-0000-7000-8000-00000000000c', 'f0000000-0000-7000-8000-000000000014', 'PRESSURE', 'VALUE', 3.5, null, 'bar', null, null, null, null, null, '2026-11-19 06:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-19 06:00:05+00'),
    ('90000000-0000-7000-8000-000000000017', 'f0000000-0000-7000-8000-00000000000c', 'f0000000-0000-7000-8000-000000000015', 'PRESSURE', 'VALUE', 45, null, 'psi', null, null, null, null, null, '2026-11-19 06:01:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-19 06:01:05+00'),
    ('90000000-0000-7000-8000-000000000018', 'f0000000-0000-7000-8000-00000000000c', null, 'VOLUME_MADE', 'VALUE', 31.25, null, 'm3', null, null, null, null, null, '2026-11-19 06:02:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-19 06:02:05+00'),
    ('90000000-0000-7000-8000-000000000019', 'f0000000-0000-7000-8000-00000000000c', null, 'PERMEATE_FLOW', 'VALUE', 190, null, 'mL/min', null, null, null, null, null, '2026-11-19 06:03:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-19 06:03:05+00'),
    ('90000000-0000-7000-8000-00000000001a', 'f0000000-0000-7000-8000-00000000000c', 'f0000000-0000-7000-8000-000000000014', 'TOTAL_CHLORINE', 'BELOW_DETECTION', 0.1, null, 'mg/L', null, null, null, null, null, '2026-11-19 06:04:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-19 06:04:05+00'),
    ('90000000-0000-7000-8000-00000000001b', 'f0000000-0000-7000-8000-000000000001', null, 'PH', 'VALUE', 8.35, null, 'pH', null, 25, '80000000-0000-7000-8000-00000000000f', null, null, '2026-11-23 10:15:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000003', null, null, '2026-11-23 10:15:05+00'),
    ('90000000-0000-7000-8000-00000000001c', 'f0000000-0000-7000-8000-000000000001', null, 'ALKALINITY', 'VALUE', 6.50, null, 'dKH', null, null, '80000000-0000-7000-8000-00000000000c', 'KH-9', null, '2026-11-23 10:25:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000003', null, null, '2026-11-23 10:25:05+00'),
    ('90000000-0000-7000-8000-00000000001d', 'f0000000-0000-7000-8000-000000000001', null, 'MAGNESIUM', 'VALUE', 1180, null, 'mg/L', null, null, null, null, null, '2026-11-23 10:30:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000003', null, null, '2026-11-23 10:30:05+00'),
    ('90000000-0000-7000-8000-00000000001e', 'f0000000-0000-7000-8000-000000000003', null, 'NITRATE', 'BETWEEN', 50, 75, 'mg/L', null, null, '80000000-0000-7000-8000-00000000000a', null, null, '2026-11-20 11:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-20 11:00:05+00'),
    ('90000000-0000-7000-8000-00000000001f', 'f0000000-0000-7000-8000-000000000002', null, 'TEMPERATURE', 'VALUE', 21.5, null, 'degC', null, null, '80000000-0000-7000-8000-000000000008', null, null, '2026-11-20 10:00:00+00', 'c0000000-0000-7000-8000-000000000003', null, null, null, '2026-11-20 10:00:05+00'),
    ('90000000-0000-7000-8000-000000000020', 'f0000000-0000-7000-8000-000000000001', null, 'OXYGEN', 'VALUE', 6.1, null, 'mg/L', null, 25, '80000000-0000-7000-8000-000000000009', null, null, '2026-11-23 10:35:00+00', 'c0000000-0000-7000-8000-000000000003', 'e0000000-0000-7000-8000-000000000003', null, null, '2026-11-23 10:35:05+00'),
    ('90000000-0000-7000-8000-000000000021', 'f0000000-0000-7000-8000-00000000000a', null, 'SALINITY', 'VALUE', 1.0240, null, 'SG', '60F/60F', 10, '80000000-0000-7000-8000-000000000004', null, null, '2026-07-15 10:00:00+00', 'c0000000-0000-7000-8000-000000000004', null, null, null, '2026-07-15 10:00:05+00');

-- The first reading of the refractometer counted as inside until the check of 20 November failed. Verdicts of rules 1 to 3 have no grounds.
insert into assessment (id, reading_id, rule_version, verdict, verdict_as_read, instrument_status, trusted, doubtful, corrected_value, uncertainty, salinity, salinity_uncertainty, reasons, calibration_ids, target_low, target_high, computed_at, decision_rule, below_probability, above_probability, budget) overriding system value values
    (1, '90000000-0000-7000-8000-000000000001', 1, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0249, 0.00071234567890123, 33.104999999999997, 0.94, '[]', array['80000000-0000-7000-8000-000000000021']::uuid[], 1.0250, 1.0270, '2026-11-02 09:40:05+00', null, null, null, null),
    (2, '90000000-0000-7000-8000-000000000001', 2, 'ABOVE', 'INSIDE', 'FAILED', false, true, 1.0330000000000001, 0.0011, 43.299999999999997, 1.4, '[{"code": "READS_LOW_BY", "args": ["0.008"]}, {"code": "LATER_CHECK_FAILED", "args": ["0.008"]}, {"code": "EXTRAPOLATED", "args": ["43.3"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000023']::uuid[], 1.0250, 1.0270, '2026-11-20 13:05:01.234567+00', null, null, null, null),
    (3, '90000000-0000-7000-8000-000000000002', 1, 'UNDECIDED', 'UNDECIDED', null, true, false, 17.5, 7.5, null, null, '[]', array[]::uuid[], 1, 15.0, '2026-11-02 09:45:05+00', null, null, null, null),
    (4, '90000000-0000-7000-8000-000000000003', 1, 'UNDECIDED', 'INSIDE', null, true, false, null, null, null, null, '[]', array[]::uuid[], null, 0, '2026-11-02 09:46:05+00', null, null, null, null),
    (5, '90000000-0000-7000-8000-000000000004', 1, 'NO_TARGET', 'NO_TARGET', null, true, false, null, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-03 09:46:05+00', null, null, null, null),
    (6, '90000000-0000-7000-8000-000000000005', 1, 'NO_TARGET', 'NO_TARGET', null, false, false, null, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-02 09:47:05+00', null, null, null, null),
    (7, '90000000-0000-7000-8000-000000000006', 1, 'ABOVE', 'ABOVE', null, true, false, 80, 1, null, null, '[]', array[]::uuid[], 7, 11, '2026-11-02 09:48:05+00', null, null, null, null),
    (8, '90000000-0000-7000-8000-000000000007', 1, 'INSIDE', 'INSIDE', null, true, false, 8, 1, null, null, '[]', array[]::uuid[], 7, 11, '2026-11-02 12:00:00+00', null, null, null, null),
    (9, '90000000-0000-7000-8000-000000000008', 1, 'BELOW', 'BELOW', 'ZERO_CHECKED_ONLY', false, false, 1.0215, 0.002, 28.6, 2.7, '[{"code": "WORKING_RANGE_UNCHECKED", "args": ["1"]}]', array['80000000-0000-7000-8000-000000000024']::uuid[], 30, 35, '2026-11-04 10:00:05+00', null, null, null, null),
    (10, '90000000-0000-7000-8000-000000000009', 1, 'UNDECIDED', 'INSIDE', 'NEVER_CHECKED', false, false, 34, 2, 34, 2, '[{"code": "NEVER_CHECKED", "args": ["2"]}]', array[]::uuid[], 30, 35, '2026-11-05 10:00:05+00', null, null, null, null),
    (11, '90000000-0000-7000-8000-00000000000a', 1, 'NO_TARGET', 'NO_TARGET', 'OVERDUE', false, false, 25.5, 0.5, null, null, '[{"code": "CHECK_OVERDUE_DAYS", "args": ["41"]}]', array[]::uuid[], null, null, '2026-11-05 10:01:05+00', null, null, null, null),
    (12, '90000000-0000-7000-8000-00000000000b', 1, 'ABOVE', 'ABOVE', 'SOUND', true, false, 6, 2, null, null, '[]', array[]::uuid[], null, 2, '2026-11-06 07:01:05+00', null, null, null, null),
    (13, '90000000-0000-7000-8000-00000000000c', 4, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0256, 0.000740265718, 33.99, 0.94, '[]', array['80000000-0000-7000-8000-000000000021']::uuid[], 1.025, 1.027, '2026-11-09 09:40:05+00', 'SIMPLE_ACCEPTANCE', 0.052504579, 7.7654e-05, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.15206997652}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.018248397182}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.010540274213}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.105110767771}, {"source": "DRIFT", "standardUncertainty": 0.00031, "share": 0.701468387694}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.011678974197}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000883222424}]'),
    (14, '90000000-0000-7000-8000-00000000000c', 4, 'UNDECIDED', 'INSIDE', 'SUSPECT', false, true, 1.0256, 0.001844883013, 33.99, 2.5, '[{"code": "FAILURE_UNCONFIRMED", "args": ["-0.008"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000023']::uuid[], 1.025, 1.027, '2026-11-20 13:05:01+00', 'GUARD_BAND', 0.257701522, 0.064543583, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.02448392777}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.002938071332}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.001697030002}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.016923290875}, {"source": "DRIFT", "standardUncertainty": 0.0009, "share": 0.951935111715}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.001880365653}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000142202652}]'),
    (15, '90000000-0000-7000-8000-00000000000c', 4, 'ABOVE', 'INSIDE', 'CONDEMNED', false, true, 1.0335, 0.001844883013, 44.3, 2.6, '[{"code": "READS_LOW_BY", "args": ["0.008"]}, {"code": "FAILURE_CONFIRMED", "args": ["-0.008"]}, {"code": "ERROR_MOVED", "args": ["-0.008"]}, {"code": "EXTRAPOLATED", "args": ["44.3"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000023', '80000000-0000-7000-8000-000000000025']::uuid[], 1.025, 1.027, '2026-11-21 07:02:01+00', 'SIMPLE_ACCEPTANCE', 0.0, 1.0, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.02448392777}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.002938071332}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.001697030002}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.016923290875}, {"source": "DRIFT", "standardUncertainty": 0.0009, "share": 0.951935111715}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.001880365653}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000142202652}]'),
    (16, '90000000-0000-7000-8000-00000000000d', 4, 'NO_TARGET', 'NO_TARGET', 'SOUND', true, false, 1.0151, 0.000740265718, 20.1, 0.9, '[]', array['80000000-0000-7000-8000-000000000021']::uuid[], null, null, '2026-11-09 10:40:05+00', 'GUARD_BAND', 0, 0, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.15206997652}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.018248397182}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.010540274213}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.105110767771}, {"source": "DRIFT", "standardUncertainty": 0.00031, "share": 0.701468387694}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.011678974197}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000883222424}]'),
    (17, '90000000-0000-7000-8000-00000000000d', 4, 'NO_TARGET', 'NO_TARGET', 'CONDEMNED', false, true, 1.0229, 0.001844883013, 30.4, 2.5, '[{"code": "READS_LOW_BY", "args": ["0.008"]}, {"code": "FAILURE_CONFIRMED", "args": ["-0.008"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000023', '80000000-0000-7000-8000-000000000025']::uuid[], null, null, '2026-11-21 07:02:01+00', 'SIMPLE_ACCEPTANCE', 0, 0, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.02448392777}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.002938071332}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.001697030002}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.016923290875}, {"source": "DRIFT", "standardUncertainty": 0.0009, "share": 0.951935111715}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.001880365653}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000142202652}]'),
    (18, '90000000-0000-7000-8000-00000000000e', 4, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0081, 0.000740265718, 10.9, 0.9, '[]', array['80000000-0000-7000-8000-000000000021']::uuid[], 1.003, 1.012, '2026-11-10 09:00:05+00', 'GUARD_BAND', 0.0, 0.0, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.15206997652}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.018248397182}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.010540274213}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.105110767771}, {"source": "DRIFT", "standardUncertainty": 0.00031, "share": 0.701468387694}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.011678974197}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000883222424}]'),
    (19, '90000000-0000-7000-8000-00000000000e', 4, 'UNDECIDED', 'INSIDE', 'CONDEMNED', false, true, 1.0121, 0.006213179004, 16.1, 8.1, '[{"code": "FAILURE_CONFIRMED", "args": ["-0.004"]}, {"code": "ERROR_STEPPED", "args": ["-0.008"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000025']::uuid[], 1.003, 1.012, '2026-11-21 07:02:01+00', 'GUARD_BAND', 0.001698865, 0.512839591, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.00215869369}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.000259043243}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.000149623377}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.001492089078}, {"source": "DRIFT", "standardUncertainty": 0.0031, "share": 0.995762225244}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.000165787675}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 1.2537693e-05}]'),
    (20, '90000000-0000-7000-8000-00000000000f', 4, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0263, 0.000740265718, 34.9, 0.94, '[]', array['80000000-0000-7000-8000-000000000021']::uuid[], 1.025, 1.027, '2026-06-01 09:00:05+00', 'SIMPLE_ACCEPTANCE', 0.000222163, 0.029297972, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.15206997652}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.018248397182}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.010540274213}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.105110767771}, {"source": "DRIFT", "standardUncertainty": 0.00031, "share": 0.701468387694}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.011678974197}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000883222424}]'),
    (21, '90000000-0000-7000-8000-00000000000f', 4, 'INSIDE', 'INSIDE', 'CONDEMNED', false, true, 1.0266, 0.001844883013, 35.3, 2.5, '[{"code": "FAILURE_CONFIRMED", "args": ["-0.0003"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000025']::uuid[], 1.025, 1.027, '2026-11-21 07:02:01+00', 'SIMPLE_ACCEPTANCE', 0.041412281, 0.332277908, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.02448392777}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.002938071332}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.001697030002}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.016923290875}, {"source": "DRIFT", "standardUncertainty": 0.0009, "share": 0.951935111715}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.001880365653}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000142202652}]'),
    (22, '90000000-0000-7000-8000-000000000010', 4, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0264, 0.000740265718, 35.0, 0.94, '[]', array['80000000-0000-7000-8000-000000000027']::uuid[], 1.025, 1.027, '2026-06-01 09:02:05+00', 'SIMPLE_ACCEPTANCE', 7.7654e-05, 0.052504579, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.15206997652}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.018248397182}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.010540274213}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.105110767771}, {"source": "DRIFT", "standardUncertainty": 0.00031, "share": 0.701468387694}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.011678974197}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000883222424}]'),
    (23, '90000000-0000-7000-8000-000000000011', 4, 'INSIDE', 'INSIDE', 'SOUND', true, false, 1.0258, 0.000740265718, 34.3, 0.94, '[]', array['80000000-0000-7000-8000-000000000028']::uuid[], 1.025, 1.027, '2026-11-21 09:15:05+00', 'SIMPLE_ACCEPTANCE', 0.015332765, 0.000593305, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.15206997652}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.018248397182}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.010540274213}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.105110767771}, {"source": "DRIFT", "standardUncertainty": 0.00031, "share": 0.701468387694}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.011678974197}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000883222424}]'),
    (24, '90000000-0000-7000-8000-000000000012', 4, 'NO_TARGET', 'NO_TARGET', 'CONDEMNED', false, true, 1.0331, 0.001844883013, 43.8, 2.5, '[{"code": "FAILURE_CONFIRMED", "args": ["-0.008"]}, {"code": "EXTRAPOLATED", "args": ["43.8"]}]', array['80000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000023', '80000000-0000-7000-8000-000000000025']::uuid[], null, null, '2026-11-22 08:00:00+00', 'SIMPLE_ACCEPTANCE', 0, 0, '[{"source": "RESOLUTION", "standardUncertainty": 0.000144337567297, "share": 0.02448392777}, {"source": "REPLICATES", "standardUncertainty": 5e-05, "share": 0.002938071332}, {"source": "STANDARD", "standardUncertainty": 3.8e-05, "share": 0.001697030002}, {"source": "TEMPERATURE", "standardUncertainty": 0.00012, "share": 0.016923290875}, {"source": "DRIFT", "standardUncertainty": 0.0009, "share": 0.951935111715}, {"source": "SLOPE", "standardUncertainty": 4e-05, "share": 0.001880365653}, {"source": "FORMULA", "standardUncertainty": 1.1e-05, "share": 0.000142202652}]'),
    (25, '90000000-0000-7000-8000-000000000013', 4, 'UNDECIDED', 'ABOVE', 'CONDEMNED', false, true, null, null, null, null, '[{"code": "BEYOND_MODEL", "args": ["0"]}]', array['80000000-0000-7000-8000-000000000025']::uuid[], 11, 13, '2026-11-22 10:00:05+00', null, null, null, null),
    (26, '90000000-0000-7000-8000-000000000014', 4, 'INSIDE', 'INSIDE', 'SOUND', true, false, 52.7, 0.410864130015, 34.76, 0.3, '[{"code": "STANDARD_QUESTIONABLE", "args": ["0.3"]}]', array['80000000-0000-7000-8000-000000000029']::uuid[], 34, 36, '2026-11-20 06:30:05+00', 'SIMPLE_ACCEPTANCE', 0.0, 0.0, '[{"source": "RESOLUTION", "standardUncertainty": 0.0288675134594813, "share": 0.019746143578}, {"source": "STANDARD", "standardUncertainty": 0.037, "share": 0.03243896467}, {"source": "TEMPERATURE", "standardUncertainty": 0.2, "share": 0.947814891752}]'),
    (27, '90000000-0000-7000-8000-000000000015', 4, 'INSIDE', 'INSIDE', 'NEVER_CHECKED', true, false, 0, 2.081665999466, null, null, '[{"code": "NEVER_CHECKED", "args": ["2"]}]', array[]::uuid[], null, 2, '2026-11-19 06:30:05+00', 'SIMPLE_ACCEPTANCE', 0, 0.027331968, '[{"source": "RESOLUTION", "standardUncertainty": 0.288675134594813, "share": 0.076923076923}, {"source": "UNCHECKED", "standardUncertainty": 1.0, "share": 0.923076923077}]'),
    (28, '90000000-0000-7000-8000-000000000016', 4, 'NO_TARGET', 'NO_TARGET', null, true, false, 3.5, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-19 06:00:05+00', null, null, null, null),
    (29, '90000000-0000-7000-8000-000000000017', 4, 'NO_TARGET', 'NO_TARGET', null, true, false, 45, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-19 06:01:05+00', null, null, null, null),
    (30, '90000000-0000-7000-8000-000000000018', 4, 'NO_TARGET', 'NO_TARGET', null, true, false, 31.25, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-19 06:02:05+00', null, null, null, null),
    (31, '90000000-0000-7000-8000-000000000019', 4, 'NO_TARGET', 'NO_TARGET', null, true, false, 190, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-19 06:03:05+00', null, null, null, null),
    (32, '90000000-0000-7000-8000-00000000001a', 4, 'NO_TARGET', 'NO_TARGET', null, true, false, null, null, null, null, '[]', array[]::uuid[], null, null, '2026-11-19 06:04:05+00', null, null, null, null),
    (33, '90000000-0000-7000-8000-00000000001b', 4, 'UNDECIDED', 'INSIDE', 'SUSPECT', false, false, 8.33, 0.112735679061, null, null, '[{"code": "ELECTRODE_OFFSET", "args": ["31"]}, {"code": "NOT_COMPENSATED", "args": ["0.1"]}]', array['80000000-0000-7000-8000-00000000002a', '80000000-0000-7000-8000-00000000002b']::uuid[], 7.9, 8.4, '2026-11-23 10:15:05+00', 'GUARD_BAND', 0.0, 0.10714727, '[{"source": "RESOLUTION", "standardUncertainty": 0.00288675134594813, "share": 0.00262274444}, {"source": "STANDARD", "standardUncertainty": 0.01, "share": 0.031472933277}, {"source": "TEMPERATURE", "standardUncertainty": 0.05, "share": 0.786823331935}, {"source": "DRIFT", "standardUncertainty": 0.02, "share": 0.12589173311}, {"source": "SLOPE", "standardUncertainty": 0.013, "share": 0.053189257239}]'),
    (34, '90000000-0000-7000-8000-00000000001b', 4, 'UNDECIDED', 'INSIDE', 'SUSPECT', false, true, 8.33, 0.112735679061, null, null, '[{"code": "DROPPED", "args": ["0"]}]', array['80000000-0000-7000-8000-00000000002a', '80000000-0000-7000-8000-00000000002b']::uuid[], 7.9, 8.4, '2026-11-24 09:10:01+00', 'GUARD_BAND', 0.0, 0.10714727, '[{"source": "RESOLUTION", "standardUncertainty": 0.00288675134594813, "share": 0.00262274444}, {"source": "STANDARD", "standardUncertainty": 0.01, "share": 0.031472933277}, {"source": "TEMPERATURE", "standardUncertainty": 0.05, "share": 0.786823331935}, {"source": "DRIFT", "standardUncertainty": 0.02, "share": 0.12589173311}, {"source": "SLOPE", "standardUncertainty": 0.013, "share": 0.053189257239}]'),
    (35, '90000000-0000-7000-8000-00000000001c', 4, 'BELOW', 'BELOW', 'NEVER_CHECKED', true, false, 6.5, 0.520416499867, null, null, '[{"code": "NEVER_CHECKED", "args": ["0.5"]}]', array[]::uuid[], 7, 11, '2026-11-23 10:25:05+00', 'SIMPLE_ACCEPTANCE', 0.972668032, 0.0, '[{"source": "RESOLUTION", "standardUncertainty": 0.0721687836487032, "share": 0.076923076923}, {"source": "UNCHECKED", "standardUncertainty": 0.25, "share": 0.923076923077}]'),
    (36, '90000000-0000-7000-8000-00000000001d', 4, 'NO_TARGET', 'NO_TARGET', null, true, false, 1180, 60.0, null, null, '[]', array[]::uuid[], null, null, '2026-11-23 10:30:05+00', 'SIMPLE_ACCEPTANCE', 0, 0, '[{"source": "UNCHECKED", "standardUncertainty": 30.0, "share": 1.0}]'),
    (37, '90000000-0000-7000-8000-00000000001e', 4, 'ABOVE', 'ABOVE', 'NEVER_CHECKED', true, false, 62.5, null, null, null, '[]', array[]::uuid[], null, 40, '2026-11-20 11:00:05+00', null, null, null, null),
    (38, '90000000-0000-7000-8000-00000000001f', 4, 'UNDECIDED', 'BELOW', 'OVERDUE', true, false, 21.5, 0.30550504633, null, null, '[{"code": "CHECK_OVERDUE_DAYS", "args": ["3"]}]', array[]::uuid[], 21.6, 27, '2026-11-20 10:00:05+00', 'GUARD_BAND', 0.74365462, 0.0, '[{"source": "RESOLUTION", "standardUncertainty": 0.0288675134594813, "share": 0.035714285714}, {"source": "DRIFT", "standardUncertainty": 0.15, "share": 0.964285714286}]'),
    (39, '90000000-0000-7000-8000-000000000020', 4, 'UNDECIDED', 'INSIDE', null, true, false, 6.1, 0.30550504633, null, null, '[]', array[]::uuid[], 6, null, '2026-11-23 10:35:05+00', 'GUARD_BAND', 0.25634538, 0, '[{"source": "RESOLUTION", "standardUncertainty": 0.0288675134594813, "share": 0.035714285714}, {"source": "FORMULA", "standardUncertainty": 0.15, "share": 0.964285714286}]'),
    (40, '90000000-0000-7000-8000-000000000021', 3, 'UNDECIDED', 'INSIDE', 'CONDEMNED', false, true, 1.0205, null, null, null, '[{"code": "FAILURE_CONFIRMED", "args": ["0.0035"]}, {"code": "SAMPLE_TEMPERATURE_UNKNOWN", "args": ["0.002"]}]', array['80000000-0000-7000-8000-00000000002d']::uuid[], 30, 35, '2026-08-02 07:01:01+00', null, null, null, null);
select setval(pg_get_serial_sequence('assessment', 'id'), 40);

insert into newest_assessment (reading_id, assessment_id) values
    ('90000000-0000-7000-8000-000000000001', 2), ('90000000-0000-7000-8000-000000000002', 3), ('90000000-0000-7000-8000-000000000003', 4),
    ('90000000-0000-7000-8000-000000000004', 5), ('90000000-0000-7000-8000-000000000005', 6), ('90000000-0000-7000-8000-000000000006', 7),
    ('90000000-0000-7000-8000-000000000007', 8), ('90000000-0000-7000-8000-000000000008', 9), ('90000000-0000-7000-8000-000000000009', 10),
    ('90000000-0000-7000-8000-00000000000a', 11), ('90000000-0000-7000-8000-00000000000b', 12), ('90000000-0000-7000-8000-00000000000c', 15),
    ('90000000-0000-7000-8000-00000000000d', 17), ('90000000-0000-7000-8000-00000000000e', 19), ('90000000-0000-7000-8000-00000000000f', 21),
    ('90000000-0000-7000-8000-000000000010', 22), ('90000000-0000-7000-8000-000000000011', 23), ('90000000-0000-7000-8000-000000000012', 24),
    ('90000000-0000-7000-8000-000000000013', 25), ('90000000-0000-7000-8000-000000000014', 26), ('90000000-0000-7000-8000-000000000015', 27),
    ('90000000-0000-7000-8000-000000000016', 28), ('90000000-0000-7000-8000-000000000017', 29), ('90000000-0000-7000-8000-000000000018', 30),
    ('90000000-0000-7000-8000-000000000019', 31), ('90000000-0000-7000-8000-00000000001a', 32), ('90000000-0000-7000-8000-00000000001b', 34),
    ('90000000-0000-7000-8000-00000000001c', 35), ('90000000-0000-7000-8000-00000000001d', 36), ('90000000-0000-7000-8000-00000000001e', 37),
    ('90000000-0000-7000-8000-00000000001f', 38), ('90000000-0000-7000-8000-000000000020', 39), ('90000000-0000-7000-8000-000000000021', 40);

insert into decision (id, kind, subject_kind, subject_id, page, summary_code, summary_args, person_id, decided_at, place, replaced_at) values
    ('a0000000-0000-7000-8000-000000000001', 'water-change', 'water-system', 'f0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000001', 'visits.decision.water-change', '["60", "Lobby reef"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:10:00+00', null, null),
    ('a0000000-0000-7000-8000-000000000002', 'report-sent', 'visit', 'e0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000001/report', 'report.decision', '["V-00001", "1", "R. Castellane"]', null, '2026-11-02 16:00:00+00', null, null),
    ('a0000000-0000-7000-8000-000000000003', 'water-change', 'water-system', 'f0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000003', 'visits.decision.water-change.batch', '["50", "Lobby reef", "2"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-21 10:00:00+00', 'e0000000-0000-7000-8000-000000000003/water-change/f0000000-0000-7000-8000-000000000001', '2026-11-21 10:20:00+00'),
    ('a0000000-0000-7000-8000-000000000004', 'water-change', 'water-system', 'f0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000003', 'visits.decision.water-change.batch', '["60", "Lobby reef", "2"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-21 10:20:00+00', 'e0000000-0000-7000-8000-000000000003/water-change/f0000000-0000-7000-8000-000000000001', null),
    ('a0000000-0000-7000-8000-000000000005', 'dose', 'water-system', 'f0000000-0000-7000-8000-000000000001', '/visits/e0000000-0000-7000-8000-000000000003', 'visits.decision.dose', '["12.5", "mL", "Alkalinity part", "Lobby reef"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:40:00+00', 'e0000000-0000-7000-8000-000000000003/task/10000000-0000-7000-8000-000000000015/0', null),
    ('a0000000-0000-7000-8000-000000000006', 'dose', 'water-system', 'f0000000-0000-7000-8000-000000000009', '/visits/e0000000-0000-7000-8000-000000000003', 'visits.decision.dose', '["4", "mL", "Copper solution", "Hospital"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:41:00+00', 'e0000000-0000-7000-8000-000000000003/dose/1', null),
    ('a0000000-0000-7000-8000-000000000007', 'plan-step', 'water-system', 'f0000000-0000-7000-8000-000000000001', '/plans/50000000-0000-7000-8000-000000000001', 'plans.decision.step.ALKALINITY', '["6.5", "7", "Lobby reef"]', 'c0000000-0000-7000-8000-000000000001', '2026-11-23 11:00:00+00', null, null),
    ('a0000000-0000-7000-8000-000000000008', 'instrument-adjusted', 'instrument', '80000000-0000-7000-8000-000000000001', '/instruments/80000000-0000-7000-8000-000000000001', 'readings.decision.instrument-adjusted', '["R-1", "ST-1", "1.0185", "1.0265"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-20 13:05:00+00', null, null),
    ('a0000000-0000-7000-8000-000000000009', 'batch-released', 'water-batch', '90000000-0000-7000-8000-000000000062', '/stock/batches/90000000-0000-7000-8000-000000000062', 'stock.decision.batch-released', '["2", "200", "Drum 4"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-20 06:31:00+00', null, null),
    ('a0000000-0000-7000-8000-00000000000a', 'batch-released', 'water-batch', '90000000-0000-7000-8000-000000000061', '/stock/batches/90000000-0000-7000-8000-000000000061', 'stock.decision.batch-released', '["1", "150", "Drum 2"]', null, '2026-11-19 06:31:00+00', null, null),
    ('a0000000-0000-7000-8000-00000000000b', 'water-change', 'water-system', 'f0000000-0000-7000-8000-000000000002', '/visits/e0000000-0000-7000-8000-000000000004', 'visits.decision.water-change', '["40", "Bar"]', 'c0000000-0000-7000-8000-000000000003', '2026-11-09 10:50:00+00', 'e0000000-0000-7000-8000-000000000004/water-change/f0000000-0000-7000-8000-000000000002', null);

insert into decision_reading (decision_id, reading_id) values
    ('a0000000-0000-7000-8000-000000000001', '90000000-0000-7000-8000-000000000001'), ('a0000000-0000-7000-8000-000000000001', '90000000-0000-7000-8000-000000000002'), ('a0000000-0000-7000-8000-000000000002', '90000000-0000-7000-8000-000000000001'),
    ('a0000000-0000-7000-8000-000000000003', '90000000-0000-7000-8000-000000000011'), ('a0000000-0000-7000-8000-000000000004', '90000000-0000-7000-8000-000000000011'), ('a0000000-0000-7000-8000-000000000005', '90000000-0000-7000-8000-00000000001c'), ('a0000000-0000-7000-8000-000000000006', '90000000-0000-7000-8000-000000000013'), ('a0000000-0000-7000-8000-000000000007', '90000000-0000-7000-8000-00000000001c'),
    ('a0000000-0000-7000-8000-000000000009', '90000000-0000-7000-8000-000000000014'), ('a0000000-0000-7000-8000-00000000000a', '90000000-0000-7000-8000-000000000015'), ('a0000000-0000-7000-8000-00000000000b', '90000000-0000-7000-8000-00000000000d');

insert into decision_decision (decision_id, rests_on_id) values
    ('a0000000-0000-7000-8000-000000000003', 'a0000000-0000-7000-8000-000000000009'), ('a0000000-0000-7000-8000-000000000004', 'a0000000-0000-7000-8000-000000000009');

insert into decision_check (decision_id, calibration_id) values
    ('a0000000-0000-7000-8000-000000000008', '80000000-0000-7000-8000-000000000022'), ('a0000000-0000-7000-8000-000000000008', '80000000-0000-7000-8000-000000000023');

insert into doubt_list (id, suspicion_id, instrument_id, doubt_from, doubt_until, made_at) values
    ('a0000000-0000-7000-8000-000000000021', '80000000-0000-7000-8000-000000000031', '80000000-0000-7000-8000-000000000001', '2026-05-01 07:30:00+00', '2026-11-21 07:00:00+00', '2026-11-21 07:02:01+00'),
    ('a0000000-0000-7000-8000-000000000022', '80000000-0000-7000-8000-000000000034', '80000000-0000-7000-8000-000000000004', null, '2026-08-02 07:00:00+00', '2026-08-02 07:01:01+00');

insert into doubt_start (id, list_id, believed_until, reading_id, evidence_id, reason, person_id, stated_at) values
    ('a0000000-0000-7000-8000-000000000031', 'a0000000-0000-7000-8000-000000000021', '2026-05-15 09:00:00+00', '90000000-0000-7000-8000-00000000000f', '90000000-0000-7000-8000-000000000010', 'First guess.', null, '2026-11-21 08:00:00+00'),
    ('a0000000-0000-7000-8000-000000000032', 'a0000000-0000-7000-8000-000000000021', '2026-06-01 09:00:00+00', '90000000-0000-7000-8000-00000000000f', '90000000-0000-7000-8000-000000000010', 'R-3 showed the same in the same water.', 'c0000000-0000-7000-8000-000000000001', '2026-11-21 08:05:00+00');

-- Lines of readings and of decisions, with every change and every way to end, and some still open.
insert into doubt_line (list_id, reading_id, decision_id, happened_at, before_id, after_id, change, outcome, ended_at, ended_by, again_id, note) values
    ('a0000000-0000-7000-8000-000000000021', '90000000-0000-7000-8000-00000000000f', null, '2026-06-01 09:00:00+00', 20, 21, 'UNCHANGED', 'EVIDENCE', '2026-11-21 08:05:00+00', 'c0000000-0000-7000-8000-000000000001', null, null),
    ('a0000000-0000-7000-8000-000000000021', '90000000-0000-7000-8000-000000000001', null, '2026-11-02 09:40:00+00', 1, 2, 'CHANGED', 'CLIENT_TOLD', '2026-11-21 08:30:00+00', 'c0000000-0000-7000-8000-000000000002', null, 'Told R. Castellane by telephone.'),
    ('a0000000-0000-7000-8000-000000000021', '90000000-0000-7000-8000-00000000000c', null, '2026-11-09 09:40:00+00', 13, 15, 'CHANGED', 'MEASURED_AGAIN', '2026-11-21 09:15:10+00', 'c0000000-0000-7000-8000-000000000003', '90000000-0000-7000-8000-000000000011', null),
    ('a0000000-0000-7000-8000-000000000021', '90000000-0000-7000-8000-00000000000d', null, '2026-11-09 10:40:00+00', 16, 17, 'UNCHANGED', 'CORRECTED', '2026-11-22 08:00:00+00', 'c0000000-0000-7000-8000-000000000002', '90000000-0000-7000-8000-000000000012', null),
    ('a0000000-0000-7000-8000-000000000021', '90000000-0000-7000-8000-000000000012', null, '2026-11-09 10:40:00+00', null, 24, 'UNCHANGED', null, null, null, null, null),
    ('a0000000-0000-7000-8000-000000000021', '90000000-0000-7000-8000-00000000000e', null, '2026-11-10 09:00:00+00', 18, 19, 'NOT_DECIDABLE', null, null, null, null, null),
    ('a0000000-0000-7000-8000-000000000021', null, 'a0000000-0000-7000-8000-000000000001', '2026-11-02 10:10:00+00', null, null, 'CHANGED', 'HARMLESS', '2026-11-21 08:40:00+00', 'c0000000-0000-7000-8000-000000000001', null, 'A change of a tenth does no harm either way.'),
    ('a0000000-0000-7000-8000-000000000021', null, 'a0000000-0000-7000-8000-00000000000b', '2026-11-09 10:50:00+00', null, null, 'NOT_DECIDABLE', null, null, null, null, null),
    ('a0000000-0000-7000-8000-000000000022', '90000000-0000-7000-8000-000000000021', null, '2026-07-15 10:00:00+00', null, 40, 'NOT_DECIDABLE', 'HARMLESS', '2026-08-03 07:00:00+00', null, null, 'The tank was emptied since.');

insert into agreement (id, code, water_system_id, rule, seasons, pauses, every_days, tolerance_days, weekdays, valid_from, valid_until, minutes, price, planned_from, planned_until, version) values
    ('10000000-0000-7000-8000-000000000001', 'A-001', 'f0000000-0000-7000-8000-000000000001', 'FREQ=WEEKLY;BYDAY=MO,TH', '10-01/03-31 FREQ=WEEKLY;INTERVAL=2;BYDAY=MO', '2026-12-20/2027-01-06', 14, 2, 'MO,TU,WE,TH,FR', '2026-01-01', '2027-12-31', 60, 95.50, '2026-01-01', '2026-12-25', 4),
    ('10000000-0000-7000-8000-000000000002', 'A-002', 'f0000000-0000-7000-8000-000000000003', 'FREQ=WEEKLY;INTERVAL=4;BYDAY=FR', '', '', 28, 0, 'FR', '2026-06-01', null, 30, 0, '2026-06-01', null, 0);

insert into agreement_task (agreement, position, kind, amount, unit, item, size_mm, interval_days) values
    ('10000000-0000-7000-8000-000000000001', 0, 'WATER_CHANGE', 10, '%', null, null, null),
    ('10000000-0000-7000-8000-000000000001', 1, 'TOP_UP', 5.5, 'L', null, null, null),
    ('10000000-0000-7000-8000-000000000001', 2, 'SOCK_SWAP', 2, 'count', null, 180, 7),
    ('10000000-0000-7000-8000-000000000001', 3, 'TEST', null, null, 'NITRATE', null, null),
    ('10000000-0000-7000-8000-000000000001', 4, 'DOSE', 12.5, 'mL', 'Alkalinity part', null, null),
    ('10000000-0000-7000-8000-000000000001', 5, 'MEDIA', 250, 'g', 'Carbon', null, null),
    ('10000000-0000-7000-8000-000000000001', 6, 'WORK', null, null, 'Clean the front pane.', null, null);

insert into planned_visit (id, agreement_id, water_system_id, site_id, nominal_on, tolerance_days, hindrance, hindrance_detail, due_on, state, minutes, price, tasks, done_on, dropped_reason) values
    ('10000000-0000-7000-8000-000000000011', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-02', 0, null, null, '2026-11-02', 'DONE', 60, 95.50, '[{"kind": "WATER_CHANGE", "amount": 10, "unit": "%", "item": null, "sizeMm": null, "intervalDays": null}, {"kind": "TEST", "amount": null, "unit": null, "item": "NITRATE", "sizeMm": null, "intervalDays": null}]', '2026-11-02', null),
    ('10000000-0000-7000-8000-000000000012', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-10', 2, 'CLOSED', 'Refurbishment', '2026-11-09', 'DROPPED', 60, 95.50, '[]', null, 'Hotel closed.'),
    ('10000000-0000-7000-8000-000000000013', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-17', 1, 'HOLIDAY', 'A holiday', '2026-11-16', 'WITHDRAWN', 45, 80, '[]', null, null),
    ('10000000-0000-7000-8000-000000000014', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-29', 2, 'WEEKDAY', null, '2026-11-30', 'DUE', 60, 99.90, '[]', null, null),
    ('10000000-0000-7000-8000-000000000015', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-11-23', 0, null, null, '2026-11-23', 'DONE', 60, 99.90, '[{"kind": "DOSE", "amount": 12.5, "unit": "mL", "item": "Alkalinity part", "sizeMm": null, "intervalDays": null}]', '2026-11-23', null),
    ('10000000-0000-7000-8000-000000000016', '10000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', '2026-12-07', 0, null, null, '2026-12-07', 'DUE', 60, 99.90, '[]', null, null);

insert into proposed_task (planned_visit_id, proposer, tasks, minutes) values
    ('10000000-0000-7000-8000-000000000014', '50000000-0000-7000-8000-000000000001', '[{"kind": "TEST", "amount": null, "unit": null, "item": "ALKALINITY", "sizeMm": null, "intervalDays": null}, {"kind": "DOSE", "amount": 19.1, "unit": "g", "item": "NaHCO3", "sizeMm": null, "intervalDays": null}]', 0),
    ('10000000-0000-7000-8000-000000000016', '50000000-0000-7000-8000-000000000001', '[]', 0),
    ('10000000-0000-7000-8000-000000000014', '50000000-0000-7000-8000-000000000002', '[{"kind": "WATER_CHANGE", "amount": 21, "unit": "L", "item": "plan", "sizeMm": null, "intervalDays": null}, {"kind": "WORK", "amount": null, "unit": null, "item": "Salinity from 33 to 34.", "sizeMm": null, "intervalDays": null}]', 35);

-- What the program came with is there; the business has set one of them and some for systems of their own.
update safe_rate set raising_per_day = 5, lowering_per_day = 2.5, why = 'As the reef keepers of the harbour do.', person_id = 'c0000000-0000-7000-8000-000000000001', set_at = '2026-10-05 08:00:00+00', version = 2
where water_system_id is null and quantity = 'NITRATE';
insert into safe_rate (id, water_system_id, quantity, raising_per_day, lowering_per_day, why, person_id, set_at, version) values
    ('50000000-0000-7000-8000-000000000051', 'f0000000-0000-7000-8000-000000000001', 'ALKALINITY', 0.25, 0.5, 'Old corals.', 'c0000000-0000-7000-8000-000000000001', '2026-10-06 08:00:00+00', 1),
    ('50000000-0000-7000-8000-000000000052', 'f0000000-0000-7000-8000-000000000009', 'SALINITY', 1, null, 'Fish under treatment.', 'c0000000-0000-7000-8000-000000000004', '2026-10-07 08:00:00.123456+00', 1);

-- One in every state; two of them work with water, two with a salt.
insert into corrective_plan (id, water_system_id, quantity, state, reading_id, first_value, from_value, read_on, to_value, per_day, salt, purity, new_water, temperature_c, salinity, added_per_day, used_per_day, carry_l, carry_kg, reached, visits_needed, carry_needed_l, carry_needed_kg, cautions, stopped_because, person_id, created_at, version) values
    ('50000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'ALKALINITY', 'RUNNING', '90000000-0000-7000-8000-00000000001c', 6.2, 6.5, '2026-11-23', 8, 0.25, 'SODIUM_BICARBONATE', 0.995, null, 25, 34.3, 0.1, 0.35, 0, 2.5, true, null, null, null, '[{"code": "NEVER_TOGETHER", "args": []}, {"code": "FIRST_UNKNOWN_MAGNESIUM", "args": []}]', null, 'c0000000-0000-7000-8000-000000000001', '2026-11-23 11:00:00+00', 3),
    ('50000000-0000-7000-8000-000000000002', 'f0000000-0000-7000-8000-000000000009', 'SALINITY', 'PROPOSED', '90000000-0000-7000-8000-000000000013', 15.01, 15.01, '2026-11-22', 35, 1, null, null, 36, 26, 15.01, 0, 0, 60, 0, false, 9, 72.25, 2.75, '[{"code": "AMMONIA_UNKNOWN", "args": []}, {"code": "MATCH_THEN_RAMP", "args": []}]', null, null, '2026-11-22 11:00:00+00', 0),
    ('50000000-0000-7000-8000-000000000003', 'f0000000-0000-7000-8000-000000000001', 'SALINITY', 'STOPPED', '90000000-0000-7000-8000-00000000000c', 34, 34, '2026-11-09', 35, 1.3, null, null, 37.5, 24.5, 34, 0, 0, 120, 0, true, null, null, null, '[]', 'READING_DOUBTED', 'c0000000-0000-7000-8000-000000000001', '2026-11-09 12:00:00+00', 4),
    ('50000000-0000-7000-8000-000000000004', 'f0000000-0000-7000-8000-000000000001', 'MAGNESIUM', 'DONE', '90000000-0000-7000-8000-00000000001d', 1100, 1180, '2026-11-23', 1180, 50, 'MAGNESIUM_CHLORIDE_HEXAHYDRATE', 1, null, 25, 34.3, 0, 0, 0, 5, true, null, null, null, '[{"code": "AMMONIA_FIRST", "args": ["8.4", "0.02", "0.4"]}]', null, 'c0000000-0000-7000-8000-000000000002', '2026-10-20 11:00:00+00', 6);

insert into corrective_step (corrective_plan, planned_visit_id, step_on, before_value, after_value, held_by, product_kg, water_l, new_water, ph_after, ammonia_after) values
    ('50000000-0000-7000-8000-000000000001', '10000000-0000-7000-8000-000000000014', '2026-11-30', 6.5, 7.25, 'RATE', 0.0191, 0, null, 8.36, 0.00412345678901234),
    ('50000000-0000-7000-8000-000000000001', '10000000-0000-7000-8000-000000000016', '2026-12-07', 7.25, 8, null, 0.0191, 0, null, null, null),
    ('50000000-0000-7000-8000-000000000002', '10000000-0000-7000-8000-000000000014', '2026-11-30', 15.01, 23.4, 'CARRY', 2.1, 60, 36, null, null);

insert into dose_rule (id, product, kind, least_hours, most_per_day, unit, why, person_id, version) values
    ('50000000-0000-7000-8000-000000000011', 'Alkalinity part', 'SUPPLEMENT', 24, 20, 'mL', 'Label.', 'c0000000-0000-7000-8000-000000000001', 1),
    ('50000000-0000-7000-8000-000000000017', 'Buffer powder', 'ALKALINITY', 24, 30, 'g', 'Label.', null, 0),
    ('50000000-0000-7000-8000-000000000012', 'Water conditioner', 'CONDITIONER', null, null, 'mL', '', null, 0),
    ('50000000-0000-7000-8000-000000000013', 'Worm powder', 'MEDICATION', 168, 1.25, 'g', 'As ordered.', 'c0000000-0000-7000-8000-000000000001', 2),
    ('50000000-0000-7000-8000-000000000014', 'Copper solution', 'COPPER', 12, 3, 'mL', 'Label, half of it at a time.', 'c0000000-0000-7000-8000-000000000001', 0),
    ('50000000-0000-7000-8000-000000000015', 'Pond algicide', 'ALGICIDE', 72, 5, 'mL', 'Label.', null, 0),
    ('50000000-0000-7000-8000-000000000016', 'Vitamin drops', 'OTHER', 8760, null, 'mL', '', null, 0);

insert into veterinary_order (id, water_system_id, product, veterinarian, written_on, valid_until, waiting_days, person_id) values
    ('50000000-0000-7000-8000-000000000021', 'f0000000-0000-7000-8000-00000000000a', 'Worm powder', 'Dr. O. Lindqvist', '2026-11-01', '2026-12-01', 42, 'c0000000-0000-7000-8000-000000000001'),
    ('50000000-0000-7000-8000-000000000022', 'f0000000-0000-7000-8000-000000000009', 'Copper solution', 'Dr. O. Lindqvist', '2026-11-05', '2026-11-05', 0, null);

insert into stock_item (id, kind, name, size_mm, length_mm, fineness_um, unit, unit_mass_kg, counted_at, unit_value, version) values
    ('90000000-0000-7000-8000-000000000051', 'SOCK', 'Filter sock', 180, 430, 200, 'count', 0.12, '2026-11-24 16:00:00+00', 3.25, 5);

insert into stock_item (id, kind, name, size_mm, unit, unit_mass_kg, counted_at, unit_value, version) values
    ('90000000-0000-7000-8000-000000000052', 'SALT', 'Salt mix', null, 'kg', 1, '2026-11-24 16:00:00+00', 2.895, 8),
    ('90000000-0000-7000-8000-000000000053', 'MEDIA', 'Carbon', null, 'g', 0.001, '2026-11-24 16:00:00+00', null, 1),
    ('90000000-0000-7000-8000-000000000054', 'DOSE', 'Alkalinity part', null, 'mL', 0.0011, '2026-11-24 16:00:00+00', null, 0),
    ('90000000-0000-7000-8000-000000000055', 'TEST_KIT', 'Nitrate drops', null, 'count', 0.2, '2026-11-24 16:00:00+00', null, 0);

insert into water_batch (id, number, water_system_id, container, litres, salt_kg, target_low, target_high, made_by, made_at, reading_id, decision_id, released_by, released_at, version) values
    ('90000000-0000-7000-8000-000000000061', 1, 'f0000000-0000-7000-8000-00000000000b', 'Drum 2', 150, null, null, 2, 'c0000000-0000-7000-8000-000000000003', '2026-11-19 06:00:00+00', '90000000-0000-7000-8000-000000000015', 'a0000000-0000-7000-8000-00000000000a', null, '2026-11-19 06:31:00+00', 1),
    ('90000000-0000-7000-8000-000000000062', 2, 'f0000000-0000-7000-8000-00000000000b', 'Drum 4', 200, 7.55, 34, 36.0, 'c0000000-0000-7000-8000-000000000003', '2026-11-20 06:00:00+00', '90000000-0000-7000-8000-000000000014', 'a0000000-0000-7000-8000-000000000009', 'c0000000-0000-7000-8000-000000000003', '2026-11-20 06:31:00+00', 1),
    ('90000000-0000-7000-8000-000000000063', 3, 'f0000000-0000-7000-8000-00000000000b', 'Drum 5', 75.708, 2.8, 34, 36, null, '2026-11-25 06:00:00+00', null, null, null, null, 0);
select setval('water_batch_number', 3);

insert into round (id, code, service_date, van_id, technician_id, leaves_at, method, proven_best, driving_seconds, distance_m, returns_at, version, locked, trip, not_before) values
    ('20000000-0000-7000-8000-000000000001', 'RD-1', '2026-11-02', '40000000-0000-7000-8000-000000000011', 'c0000000-0000-7000-8000-000000000003', '07:45', 'EXACT', true, 2520, 31400, '15:10', 6, false, 1, null),
    ('20000000-0000-7000-8000-000000000002', 'RD-2', '2026-11-30', '40000000-0000-7000-8000-000000000011', null, '08:00', 'LOCAL_SEARCH', false, 900, 8000, '11:00', 1, true, 1, null),
    ('20000000-0000-7000-8000-000000000003', 'RD-3', '2026-11-30', '40000000-0000-7000-8000-000000000012', 'c0000000-0000-7000-8000-000000000004', '08:00', 'GIVEN', false, 0, 0, '08:00', 0, false, 1, null),
    ('20000000-0000-7000-8000-000000000004', 'RD-4', '2026-11-30', '40000000-0000-7000-8000-000000000012', null, '13:30', 'EXACT', true, 600, 5000, '15:00', 2, false, 2, '13:00');

insert into round_stop (id, round_id, position, site_id, arrives_at, starts_at, departs_at, late_minutes, started_at, finished_at) values
    ('20000000-0000-7000-8000-000000000011', '20000000-0000-7000-8000-000000000001', 0, 'd0000000-0000-7000-8000-000000000021', '08:10', '08:15', '09:15', 0, '2026-11-02 08:12:00+00', '2026-11-02 09:30:00+00'),
    ('20000000-0000-7000-8000-000000000012', '20000000-0000-7000-8000-000000000001', 1, 'd0000000-0000-7000-8000-000000000022', '09:40', '09:40', '10:10', 12, null, null),
    ('20000000-0000-7000-8000-000000000013', '20000000-0000-7000-8000-000000000002', 0, 'd0000000-0000-7000-8000-000000000021', '08:10', '08:15', '09:15', 0, null, null);

insert into round_stop_visit (stop_id, planned_visit_id, held) values
    ('20000000-0000-7000-8000-000000000011', '10000000-0000-7000-8000-000000000011', true),
    ('20000000-0000-7000-8000-000000000012', '10000000-0000-7000-8000-000000000014', false),
    ('20000000-0000-7000-8000-000000000013', '10000000-0000-7000-8000-000000000014', true);

insert into load_tick (id, round_id, line, amount, missing, instead, ticked, person_id, ticked_at) values
    ('20000000-0000-7000-8000-000000000021', '20000000-0000-7000-8000-000000000001', 'salt', 7.4, 0, null, true, 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:20:00+00'),
    ('20000000-0000-7000-8000-000000000022', '20000000-0000-7000-8000-000000000001', 'salt', 7.4, 0, null, false, 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:21:00+00'),
    ('20000000-0000-7000-8000-000000000023', '20000000-0000-7000-8000-000000000001', 'sock:180', 4, 1, 'A 200 mm one', true, 'c0000000-0000-7000-8000-000000000004', '2026-11-02 07:22:00+00');

insert into visit (id, code, site_id, service_date, round_id, stop_id, technician_id, planned_visits, started_at, finished_at, version) values
    ('e0000000-0000-7000-8000-000000000001', 'V-00001', 'd0000000-0000-7000-8000-000000000021', '2026-11-02', '20000000-0000-7000-8000-000000000001', '20000000-0000-7000-8000-000000000011', 'c0000000-0000-7000-8000-000000000003', array['10000000-0000-7000-8000-000000000011']::uuid[], '2026-11-02 08:12:00+00', '2026-11-02 10:30:00+00', 2),
    ('e0000000-0000-7000-8000-000000000002', 'V-00002', 'd0000000-0000-7000-8000-000000000022', '2026-11-25', null, null, 'c0000000-0000-7000-8000-000000000003', array[]::uuid[], null, null, 0),
    ('e0000000-0000-7000-8000-000000000003', 'V-00003', 'd0000000-0000-7000-8000-000000000021', '2026-11-23', null, null, 'c0000000-0000-7000-8000-000000000003', array['10000000-0000-7000-8000-000000000015']::uuid[], '2026-11-21 09:00:00+00', '2026-11-23 11:20:00+00', 5),
    ('e0000000-0000-7000-8000-000000000004', 'V-00004', 'd0000000-0000-7000-8000-000000000021', '2026-11-09', null, null, 'c0000000-0000-7000-8000-000000000003', array[]::uuid[], '2026-11-09 09:30:00+00', '2026-11-09 11:00:00+00', 1);
select setval('visit_number', 4);
select setval('round_number', 3);

insert into visit_entry (id, visit_id, kind, field, counts, water_system_id, body, facts, author_id, entered_at, entered_offset, happened_at, received_at) values
    ('e0000000-0000-7000-8000-000000000011', 'e0000000-0000-7000-8000-000000000001', 'visit.start', 'start', true, null, '{}', '{}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 08:12:00+00', 'Z', '2026-11-02 08:12:00+00', '2026-11-02 08:12:01+00'),
    ('e0000000-0000-7000-8000-000000000012', 'e0000000-0000-7000-8000-000000000001', 'visit.reading', 'reading/f0000000-0000-7000-8000-000000000001/SALINITY', true, 'f0000000-0000-7000-8000-000000000001', '{"system": "f0000000-0000-7000-8000-000000000001", "quantity": "SALINITY", "value": "1,0250", "unit": "SG"}', '{"reading": "90000000-0000-7000-8000-000000000001"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 09:40:00+00', '+01:00', '2026-11-02 09:40:00+00', '2026-11-02 09:40:05+00'),
    ('e0000000-0000-7000-8000-000000000013', 'e0000000-0000-7000-8000-000000000001', 'visit.water-change', 'water-change/f0000000-0000-7000-8000-000000000001', true, 'f0000000-0000-7000-8000-000000000001', '{"out": "60", "in": "60"}', '{"out": "60", "in": "60", "salinity": "35", "salinityUnit": "S"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:10:00+00', 'Z', '2026-11-02 10:10:00+00', '2026-11-02 10:10:01+00'),
    ('e0000000-0000-7000-8000-000000000014', 'e0000000-0000-7000-8000-000000000001', 'visit.note', 'note/1', false, 'f0000000-0000-7000-8000-000000000001', '{"line": "1", "text": "Anemone has moved."}', '{"text": "Anemone has moved."}', 'c0000000-0000-7000-8000-000000000004', '2026-11-02 10:12:00+00', '-05:00', '2026-11-02 10:12:00+00', '2026-11-02 12:00:00+00'),
    ('e0000000-0000-7000-8000-000000000015', 'e0000000-0000-7000-8000-000000000001', 'visit.photo', 'photo/1', true, 'f0000000-0000-7000-8000-000000000001', '{"photo": "60000000-0000-7000-8000-000000000003"}', '{"photo": "60000000-0000-7000-8000-000000000003", "caption": "Left corner"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:15:00+00', 'Z', '2026-11-02 10:15:00+00', '2026-11-02 10:31:00+00'),
    ('e0000000-0000-7000-8000-000000000016', 'e0000000-0000-7000-8000-000000000001', 'visit.finish', 'finish', true, null, '{}', '{}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:30:00+00', 'Z', '2026-11-02 10:30:00+00', '2026-11-02 10:30:01+00'),
    ('e0000000-0000-7000-8000-000000000031', 'e0000000-0000-7000-8000-000000000003', 'visit.water-change', 'water-change/f0000000-0000-7000-8000-000000000001', false, 'f0000000-0000-7000-8000-000000000001', '{"system": "f0000000-0000-7000-8000-000000000001", "out": "50", "batch": "90000000-0000-7000-8000-000000000062"}', '{"out": "50", "batch": "90000000-0000-7000-8000-000000000062"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-21 10:00:00+00', '+01:00', '2026-11-21 10:00:00+00', '2026-11-21 10:00:00+00'),
    ('e0000000-0000-7000-8000-000000000032', 'e0000000-0000-7000-8000-000000000003', 'visit.water-change', 'water-change/f0000000-0000-7000-8000-000000000001', true, 'f0000000-0000-7000-8000-000000000001', '{"system": "f0000000-0000-7000-8000-000000000001", "out": "60", "batch": "90000000-0000-7000-8000-000000000062"}', '{"out": "60", "batch": "90000000-0000-7000-8000-000000000062"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-21 10:20:00+00', '+01:00', '2026-11-21 10:20:00+00', '2026-11-21 10:20:00+00'),
    ('e0000000-0000-7000-8000-000000000033', 'e0000000-0000-7000-8000-000000000003', 'visit.correct-reading', 'reading/f0000000-0000-7000-8000-000000000002/SALINITY', true, 'f0000000-0000-7000-8000-000000000002', '{"reading": "90000000-0000-7000-8000-00000000000d", "value": "1.0250", "reason": "Two digits had changed places."}', '{"reading": "90000000-0000-7000-8000-000000000012"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-22 08:00:00+00', '+01:00', '2026-11-22 08:00:00+00', '2026-11-22 08:00:00+00'),
    ('e0000000-0000-7000-8000-000000000034', 'e0000000-0000-7000-8000-000000000003', 'visit.top-up', 'top-up/f0000000-0000-7000-8000-000000000001', true, 'f0000000-0000-7000-8000-000000000001', '{"atMark": "true"}', '{"atMark": true}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:10:00+00', '+01:00', '2026-11-23 10:10:00+00', '2026-11-23 10:10:00+00'),
    ('e0000000-0000-7000-8000-000000000035', 'e0000000-0000-7000-8000-000000000003', 'visit.task', 'task/10000000-0000-7000-8000-000000000015/0', true, 'f0000000-0000-7000-8000-000000000001', '{"plannedVisit": "10000000-0000-7000-8000-000000000015", "position": "0", "state": "DONE"}', '{"state": "DONE"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:40:00+00', '+01:00', '2026-11-23 10:40:00+00', '2026-11-23 10:40:00+00'),
    ('e0000000-0000-7000-8000-000000000036', 'e0000000-0000-7000-8000-000000000003', 'visit.dose', 'dose/1', true, 'f0000000-0000-7000-8000-000000000009', '{"line": "1", "product": "Copper solution", "amount": "4", "unit": "mL"}', '{"product": "Copper solution", "amount": "4", "unit": "mL", "because": "Second half of the first dose."}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:41:00+00', '+01:00', '2026-11-23 10:41:00+00', '2026-11-23 10:41:00+00'),
    ('e0000000-0000-7000-8000-000000000037', 'e0000000-0000-7000-8000-000000000003', 'visit.livestock', 'livestock/1', true, 'f0000000-0000-7000-8000-000000000001', '{"line": "1", "change": "LOST", "livestock": "f0000000-0000-7000-8000-000000000041", "count": "1"}', '{"change": "LOST", "count": 1, "note": "Jumped.", "name": "Clownfish", "livestock": "f0000000-0000-7000-8000-000000000041"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:50:00+00', '+01:00', '2026-11-23 10:50:00+00', '2026-11-23 10:50:00+00'),
    ('e0000000-0000-7000-8000-000000000038', 'e0000000-0000-7000-8000-000000000003', 'visit.film', 'film/f0000000-0000-7000-8000-000000000001', true, 'f0000000-0000-7000-8000-000000000001', '{"seen": "true"}', '{"seen": true}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:51:00+00', '+01:00', '2026-11-23 10:51:00+00', '2026-11-23 10:51:00+00'),
    ('e0000000-0000-7000-8000-000000000039', 'e0000000-0000-7000-8000-000000000003', 'visit.photo', 'photo/60000000-0000-7000-8000-000000000004', true, 'f0000000-0000-7000-8000-000000000001', '{"photo": "60000000-0000-7000-8000-000000000004"}', '{"photo": "60000000-0000-7000-8000-000000000004", "caption": "Probe"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 11:02:00+00', '+01:00', '2026-11-23 11:02:00+00', '2026-11-23 11:02:00+00'),
    ('e0000000-0000-7000-8000-00000000003a', 'e0000000-0000-7000-8000-000000000003', 'visit.signature', 'signature', true, null, '{"name": "R. Castellane"}', '{"name": "R. Castellane", "drawing": "60000000-0000-7000-8000-000000000005"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 11:20:00+00', '+01:00', '2026-11-23 11:20:00+00', '2026-11-23 11:20:00+00');

insert into dose_given (key, water_system_id, product, amount, unit, given_at, visit_id, agreed, received_at, further) values
    ('e0000000-0000-7000-8000-000000000003/task/10000000-0000-7000-8000-000000000015/0', 'f0000000-0000-7000-8000-000000000001', 'Alkalinity part', 12.5, 'mL', '2026-11-23 10:40:00+00', 'e0000000-0000-7000-8000-000000000003', true, '2026-11-23 10:40:04+00', false),
    ('e0000000-0000-7000-8000-000000000003/dose/1', 'f0000000-0000-7000-8000-000000000009', 'Copper solution', 4, 'mL', '2026-11-23 10:41:00+00', 'e0000000-0000-7000-8000-000000000003', false, '2026-11-23 10:41:09.25+00', true),
    ('e0000000-0000-7000-8000-000000000001/dose/1', 'f0000000-0000-7000-8000-00000000000a', 'Worm powder', 9.75, 'g', '2026-11-02 09:50:00+00', null, false, null, false);

insert into inbox_entry (id, kind, subject_id, device, sequence, device_time, device_offset, canonical_hash, content, author_id, received_at, status, answer) values
    ('e0000000-0000-7000-8000-000000000012', 'visit.reading', 'e0000000-0000-7000-8000-000000000001', 'tablet-1', 2, '2026-11-02 09:40:00+00', '+01:00', sha256('{"kind":"visit.reading"}'), '{"kind":"visit.reading"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 09:40:05+00', 'applied', '{"code": "ok", "args": {"verdict": "INSIDE"}}'),
    ('e0000000-0000-7000-8000-000000000014', 'visit.note', 'e0000000-0000-7000-8000-000000000001', 'tablet-2', 1, '2026-11-02 10:12:00+00', '-05:00', sha256('{"kind":"visit.note"}'), '{"kind":"visit.note"}', 'c0000000-0000-7000-8000-000000000004', '2026-11-02 12:00:00+00', 'conflict', '{"code": "changed-meanwhile", "args": {"theirs": "Anemone open."}}'),
    ('e0000000-0000-7000-8000-000000000015', 'visit.photo', 'e0000000-0000-7000-8000-000000000001', 'tablet-1', 5, null, null, sha256('{"kind":"visit.photo"}'), '{"kind":"visit.photo"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 10:16:00+00', 'waiting', '{"code": "photo-missing", "args": {}}'),
    ('e0000000-0000-7000-8000-000000000017', 'load.tick', null, 'tablet-1', 6, '2026-11-02 07:00:00+00', 'Z', sha256('{"kind":"load.tick"}'), '{"kind":"load.tick"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:00:01+00', 'refused', '{"code": "unknown-line", "args": {"line": "salt"}}');

insert into report_delivery (id, visit_id, version_number, way, recipient, delivered_by, delivered_at) values
    ('e0000000-0000-7000-8000-000000000021', 'e0000000-0000-7000-8000-000000000001', 1, 'MAIL', 'desk@bellwether.example', 'c0000000-0000-7000-8000-000000000002', '2026-11-02 16:00:00+00'),
    ('e0000000-0000-7000-8000-000000000022', 'e0000000-0000-7000-8000-000000000001', 1, 'BY_HAND', 'R. Castellane', null, '2026-11-02 17:00:00+00');

update inbox_entry set field = 'reading/f0000000-0000-7000-8000-000000000001/SALINITY' where id = 'e0000000-0000-7000-8000-000000000012';
update inbox_entry
set settled_at = '2026-11-03 08:00:00.000003+00', settled_by = 'c0000000-0000-7000-8000-000000000002', settled_note = 'The load was ticked again.'
where id = 'e0000000-0000-7000-8000-000000000017';

insert into followup (id, code, args, urgency, subject_kind, subject_id, topic, page, opened_at, settled_at, settled_by, settled_note, settled_page) values
    ('70000000-0000-7000-8000-000000000021', 'readings.deadly.AMMONIA', '["Lobby reef", "0.3"]', 'DEADLY', 'water-system', 'f0000000-0000-7000-8000-000000000001', 'deadly:f0000000-0000-7000-8000-000000000001:AMMONIA', '/systems/f0000000-0000-7000-8000-000000000001', '2026-11-24 10:00:00+00', '2026-11-24 16:00:00+00', 'c0000000-0000-7000-8000-000000000003', 'Measured again.', '/systems/f0000000-0000-7000-8000-000000000001');

insert into decision_instrument (decision_id, instrument_id, measured_at) values
    ('a0000000-0000-7000-8000-000000000003', '80000000-0000-7000-8000-000000000001', '2026-11-21 09:58:00+00');

insert into visit_entry (id, visit_id, kind, field, counts, water_system_id, body, facts, author_id, entered_at, entered_offset, happened_at, received_at) values
    ('e0000000-0000-7000-8000-000000000041', 'e0000000-0000-7000-8000-000000000003', 'visit.running', 'running/1', true, 'f0000000-0000-7000-8000-000000000001', '{"line": "1", "thing": "WATER_RUNNING"}', '{"line": "1", "thing": "WATER_RUNNING"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:05:00+00', 'Z', '2026-11-23 10:05:00+00', '2026-11-23 10:05:01+00'),
    ('e0000000-0000-7000-8000-000000000042', 'e0000000-0000-7000-8000-000000000003', 'visit.running', 'running/2', true, 'f0000000-0000-7000-8000-000000000001', '{"line": "2", "thing": "HEATER_OFF"}', '{"line": "2", "thing": "HEATER_OFF"}', 'c0000000-0000-7000-8000-000000000003', '2026-11-23 10:06:00+00', '+01:00', '2026-11-23 10:06:00+00', '2026-11-23 10:06:01+00');

insert into running_alarm (entry_id, situation, raised_at) values
    ('e0000000-0000-7000-8000-000000000041', 'TOO_LONG', '2026-11-23 10:35:00.5+00'),
    ('e0000000-0000-7000-8000-000000000042', 'LEFT_BEHIND', '2026-11-23 11:30:00+00'),
    ('e0000000-0000-7000-8000-000000000042', 'TIME_IS_UP', '2026-11-23 12:00:00+00');

insert into site_safety (site_id, residual_current_test, residual_current_note, check_in_for, check_in_note, version) values
    ('d0000000-0000-7000-8000-000000000021', 'AGREED', 'Ask the desk first.', 'CO2_CELLAR', null, 3),
    ('d0000000-0000-7000-8000-000000000022', 'NEVER', 'A server room hangs on it.', 'OTHER', 'The dog.', 0),
    ('d0000000-0000-7000-8000-000000000023', 'NOT_ASKED', null, 'NOTHING', null, 1);

-- Three more sites, so that each hazard occurs.
insert into site (id, code, client_id, name, latitude, longitude, own_tap, own_drain, own_ro_di, mixing_barrel, version) values
    ('d0000000-0000-7000-8000-000000000031', 'S-031', 'd0000000-0000-7000-8000-000000000002', 'Pump house', 52.21, -1.71, true, true, false, false, 0),
    ('d0000000-0000-7000-8000-000000000032', 'S-032', 'd0000000-0000-7000-8000-000000000002', 'Atrium', 52.22, -1.72, true, true, false, false, 0),
    ('d0000000-0000-7000-8000-000000000033', 'S-033', 'd0000000-0000-7000-8000-000000000002', 'Night bar', 52.23, -1.73, true, true, false, false, 0);

insert into site_safety (site_id, residual_current_test, residual_current_note, check_in_for, check_in_note, version) values
    ('d0000000-0000-7000-8000-000000000031', 'NOT_AGREED', null, 'PIT', 'Two metres deep.', 0),
    ('d0000000-0000-7000-8000-000000000032', 'AGREED', null, 'LADDER', null, 0),
    ('d0000000-0000-7000-8000-000000000033', 'AGREED', null, 'NIGHT', null, 0);

update alone_call_list set version = 4;

insert into alone_call_line (position, person_id, email, phone, wait_minutes) values
    (0, 'c0000000-0000-7000-8000-000000000002', 'olu@lanternpier.example', '+44 1632 960100', 10),
    (1, 'c0000000-0000-7000-8000-000000000001', 'inga@lanternpier.example', null, 240);

insert into alone_stay (id, site_id, person_id, because, checked_in_at, checked_in_by, latest_return, checked_out_at, checked_out_by, answered_at, answered_by, next_call_at) values
    ('e1000000-0000-7000-8000-000000000001', 'd0000000-0000-7000-8000-000000000021', 'c0000000-0000-7000-8000-000000000003', 'CO2_CELLAR', '2026-11-20 09:00:00+00', 'c0000000-0000-7000-8000-000000000003', '2026-11-20 09:45:00+00', '2026-11-20 10:05:00+00', 'c0000000-0000-7000-8000-000000000002', '2026-11-20 09:50:00+00', 'c0000000-0000-7000-8000-000000000002', '2026-11-20 09:55:00+00'),
    ('e1000000-0000-7000-8000-000000000002', 'd0000000-0000-7000-8000-000000000022', 'c0000000-0000-7000-8000-000000000003', 'OTHER', '2026-11-25 09:00:00+00', 'c0000000-0000-7000-8000-000000000002', '2026-11-25 10:00:00+00', null, null, null, null, '2026-11-25 10:00:00+00');

insert into alone_call (stay_id, number, person_id, called_at, mailed) values
    ('e1000000-0000-7000-8000-000000000001', 1, 'c0000000-0000-7000-8000-000000000002', '2026-11-20 09:45:10+00', true),
    ('e1000000-0000-7000-8000-000000000002', 1, 'c0000000-0000-7000-8000-000000000001', '2026-11-25 10:00:10+00', false);

insert into quarantine_period (id, kind, days, why, version) values
    ('f1000000-0000-7000-8000-000000000001', 'tang', 42, 'As our veterinarian says.', 1);

insert into quarantine_display (water_system_id, display_id, fallow_since, fallow_days) values
    ('f0000000-0000-7000-8000-000000000009', 'f0000000-0000-7000-8000-000000000001', '2026-11-01', 76),
    ('f0000000-0000-7000-8000-00000000000a', 'f0000000-0000-7000-8000-000000000002', null, null);

insert into treatment (id, water_system_id, product, ordered_by, strength, unit, low_mg_l, high_mg_l, copper_form, kit_shows, started_on, ended_on, why_ended, version) values
    ('f1000000-0000-7000-8000-000000000011', 'f0000000-0000-7000-8000-000000000009', 'Copper solution', 'Dr. O. Lindqvist', 10.5, 'mL', 0.15, 0.2, 'FREE', 'TOTAL', '2026-11-10', null, null, 2),
    ('f1000000-0000-7000-8000-000000000012', 'f0000000-0000-7000-8000-000000000009', 'Bound copper', 'Dr. O. Lindqvist', 20, 'mL', 1.5, 2, 'CHELATED', 'FREE', '2026-09-01', '2026-09-05', 'The kit shows another form.', 1),
    ('f1000000-0000-7000-8000-000000000013', 'f0000000-0000-7000-8000-00000000000a', 'Worm powder', 'Dr. O. Lindqvist', 500, 'g', 2, 2.5, null, null, '2026-11-02', null, null, 0);

insert into treatment_thing (treatment_id, thing, state) values
    ('f1000000-0000-7000-8000-000000000011', 'CARBON', 'OFF'),
    ('f1000000-0000-7000-8000-000000000011', 'UV', 'OFF'),
    ('f1000000-0000-7000-8000-000000000011', 'SKIMMER', 'ON'),
    ('f1000000-0000-7000-8000-000000000012', 'OZONE', 'BACK');

insert into tablet_device (id, person_id, description, first_seen_at, last_seen_at, day_taken, day_taken_at, waiting, barred_at, barred_by, barred_because) values
    ('tablet-1', 'c0000000-0000-7000-8000-000000000003', 'Tablet, Android', '2026-11-02 07:00:00+00', '2026-11-24 17:00:00.123+00', '2026-11-24', '2026-11-24 07:10:00+00', 0, null, null, null),
    ('tablet-2', 'c0000000-0000-7000-8000-000000000004', 'Tablet', '2026-11-02 07:00:00+00', '2026-11-12 17:00:00+00', null, null, 3, '2026-11-13 08:00:00+00', 'c0000000-0000-7000-8000-000000000001', 'Lost on the ferry.');

update instrument set shake_seconds = 30, wait_seconds = 600, read_within_seconds = 120
where id = (select id from instrument where kind in ('TITRATION_KIT', 'COLOUR_KIT', 'PHOTOMETER') order by id limit 1);

insert into password_guess (who, misses, last_at, wait_until) values
    (sha256('inga'), 6, '2026-11-26 13:35:00.25+00', '2026-11-26 13:35:08.25+00');

insert into animal_look (id, water_system_id, eating, breathing, signs, seen_at, person_id) values
    ('f2000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000009', 'ALL', 'CALM', null, '2026-11-25 08:00:00+00', 'c0000000-0000-7000-8000-000000000003'),
    ('f2000000-0000-7000-8000-000000000002', 'f0000000-0000-7000-8000-000000000009', 'SOME', 'FAST', 'White dots on the fins.', '2026-11-25 18:00:00+00', 'c0000000-0000-7000-8000-000000000003'),
    ('f2000000-0000-7000-8000-000000000003', 'f0000000-0000-7000-8000-000000000009', 'NONE', 'FAST', 'Lies on the bottom.', '2026-11-26 08:00:00+00', 'c0000000-0000-7000-8000-000000000002');

insert into animal_offer (id, water_system_id, livestock_id, offer, outcome, offered_at, person_id)
select ('f2000000-0000-7000-8000-00000000001' || number)::uuid, water_system_id, livestock.id, offer, outcome, '2026-11-25 08:10:00+00', 'c0000000-0000-7000-8000-000000000003'
from (select * from livestock order by id limit 1) as livestock,
    (values (1, 'live brine shrimp', 'EATEN'), (2, 'frozen mysis', 'TASTED'), (3, 'flake', 'REFUSED')) as offered (number, offer, outcome);

insert into visit_signature_link (id, token_hash, visit_id, shown_hash, made_by, made_at, valid_until, ended_at, used_at, entry_id) values
    ('f2000000-0000-7000-8000-000000000021', sha256('first'), 'e0000000-0000-7000-8000-000000000001', sha256('as it was'), 'c0000000-0000-7000-8000-000000000002', '2026-11-03 08:00:00+00', '2026-11-17 08:00:00+00', '2026-11-04 08:00:00+00', null, null),
    ('f2000000-0000-7000-8000-000000000022', sha256('second'), 'e0000000-0000-7000-8000-000000000001', sha256('as it was'), 'c0000000-0000-7000-8000-000000000002', '2026-11-04 08:00:00+00', '2026-11-18 08:00:00+00', null, '2026-11-05 19:30:00+00', 'e0000000-0000-7000-8000-000000000014'),
    ('f2000000-0000-7000-8000-000000000023', sha256('third'), 'e0000000-0000-7000-8000-000000000003', sha256('as it is'), 'c0000000-0000-7000-8000-000000000003', '2026-11-24 08:00:00+00', '2026-12-08 08:00:00+00', null, null, null);

insert into small_photo (file_id, content) values
    ('60000000-0000-7000-8000-000000000003', '\xffd8ffe0');

update outgoing_mail set secret_about = 'f2000000-0000-7000-8000-000000000023' where id = '60000000-0000-7000-8000-000000000023';

insert into visit_signature_token (token_hash, link_id) values
    (sha256('third, to another address'), 'f2000000-0000-7000-8000-000000000023');

insert into quarantine_left (water_system_id, left_on) values
    ('f0000000-0000-7000-8000-000000000009', '2026-11-20');

insert into site_needs (site_id, weekdays, closures, arrival_minutes, parking_minutes, key_lead_days, two_people, electrician, diving, lift, version) values
    ('d0000000-0000-7000-8000-000000000021', 'MO,TU,WE,TH,FR', '2026-11-10/2026-11-10 Refurbishment|2026-12-20/2027-01-06', 12, 45, 2, true, true, false, 'Goods lift, 1.1 m wide', 3),
    ('d0000000-0000-7000-8000-000000000022', 'MO,TU,WE,TH,FR,SA,SU', '', null, null, null, false, false, true, null, 0);

insert into holiday_calendar (id, only_one, code, version) values
    ('f2000000-0000-7000-8000-000000000031', true, 'DE-BY', 2);

insert into week_plan (id, number, first_day, weeks, seed, tries, tried, state, stop_asked, unplaced, cost, based_on, made_by, made_at, accepted_by, accepted_at)
overriding system value values
    ('f2000000-0000-7000-8000-000000000041', 1, '2026-11-30', 8, 7, 200000, 200000, 'ACCEPTED', false, 1, 123456, 'rounds of then', 'c0000000-0000-7000-8000-000000000002', '2026-11-26 18:00:00+00', 'c0000000-0000-7000-8000-000000000001', '2026-11-26 18:05:00+00'),
    ('f2000000-0000-7000-8000-000000000042', 2, '2026-11-30', 1, -3, 100, 17, 'READY', true, 0, 77, 'rounds of then', 'c0000000-0000-7000-8000-000000000002', '2026-11-26 18:10:00+00', null, null),
    ('f2000000-0000-7000-8000-000000000043', 3, '2026-12-07', 2, 1, 100000000, 0, 'RUNNING', false, 0, 0, 'rounds of then', null, '2026-11-26 18:11:00+00', null, null);

insert into week_plan_stop (plan_id, day, van_id, position, site_id, starts_at, departs_at, visits, trip) values
    ('f2000000-0000-7000-8000-000000000041', '2026-11-30', '40000000-0000-7000-8000-000000000011', 0, 'd0000000-0000-7000-8000-000000000021', '08:15', '09:15', '{10000000-0000-7000-8000-000000000014}', 1),
    ('f2000000-0000-7000-8000-000000000042', '2026-12-01', '40000000-0000-7000-8000-000000000012', 0, 'd0000000-0000-7000-8000-000000000022', '10:00', '10:30', '{}', 2);

insert into calendar_feed (id, kind, subject_id, token_hash, made_by, made_at, revoked_at) values
    ('f2000000-0000-7000-8000-000000000051', 'TECHNICIAN', 'c0000000-0000-7000-8000-000000000003', sha256('calendar of a technician'), 'c0000000-0000-7000-8000-000000000002', '2026-11-26 18:00:00+00', null),
    ('f2000000-0000-7000-8000-000000000052', 'VAN', '40000000-0000-7000-8000-000000000011', sha256('calendar of a van'), 'c0000000-0000-7000-8000-000000000002', '2026-11-26 18:01:00+00', '2026-11-26 18:02:00+00'),
    ('f2000000-0000-7000-8000-000000000053', 'CLIENT', 'd0000000-0000-7000-8000-000000000001', sha256('calendar of a client'), 'c0000000-0000-7000-8000-000000000002', '2026-11-26 18:03:00+00', null);

insert into calendar_event (id, feed_id, visit_id, starts_on, starts_at, ends_at, summary, location, description, sequence, cancelled, changed_at) values
    ('f2000000-0000-7000-8000-000000000061', 'f2000000-0000-7000-8000-000000000051', '10000000-0000-7000-8000-000000000014', '2026-11-30', '08:15', '09:15', 'Quay Street', '1 Quay Street, HB1 4QT Harbourside', 'Lobby reef', 2, false, '2026-11-26 18:04:00+00'),
    ('f2000000-0000-7000-8000-000000000062', 'f2000000-0000-7000-8000-000000000053', '10000000-0000-7000-8000-000000000016', '2026-12-07', null, null, 'Visit', null, null, 0, true, '2026-11-26 18:05:00+00');

insert into travel_leg (from_site_id, to_site_id, seconds, metres) values
    ('d0000000-0000-7000-8000-000000000021', 'd0000000-0000-7000-8000-000000000022', 1260, 14200),
    ('d0000000-0000-7000-8000-000000000022', 'd0000000-0000-7000-8000-000000000021', null, null);

update planned_visit set worked_minutes = 71.25 where id = '10000000-0000-7000-8000-000000000011';

insert into time_rules (id, only_one, learned_minutes, learned_travel, confidence, version) values
    ('f2000000-0000-7000-8000-000000000071', true, true, false, 85, 3);

insert into person_skills (person_id, electrician, diving, version) values
    ('c0000000-0000-7000-8000-000000000003', true, false, 2);

insert into absence (id, person_id, first_on, last_on, reason) values
    ('f2000000-0000-7000-8000-000000000072', 'c0000000-0000-7000-8000-000000000003', '2026-12-24', '2027-01-02', 'Holidays'),
    ('f2000000-0000-7000-8000-000000000073', 'c0000000-0000-7000-8000-000000000004', '2026-12-01', '2026-12-01', null);

insert into van_crew (van_id, second_person_id, version) values
    ('40000000-0000-7000-8000-000000000011', 'c0000000-0000-7000-8000-000000000004', 4);

insert into van_day (van_id, weekday, starts_at, ends_at, off_from, off_until) values
    ('40000000-0000-7000-8000-000000000011', 1, '07:30', '16:00', '11:30', '13:15'),
    ('40000000-0000-7000-8000-000000000011', 7, '09:00', '12:15', null, null);

insert into planning_terms (only_one, driving_hour, kilometre, overtime_hour, round, day_beyond, stranger, promise, late_hour, uneven_hour, disinfection, left_out, days_beyond, overtime_minutes, break_after_minutes, break_minutes, version, reload, reloads, reload_minutes) values
    (true, 32.5, 0.45, 41, 20, 6, 5, 25, 60, 3, 15, 500, 3, 60, 360, 30, 2, 7.5, true, 25);

insert into round_taken (round_id, device, person_id, round_version, first_at, last_at) values
    ('20000000-0000-7000-8000-000000000001', 'device-a', 'c0000000-0000-7000-8000-000000000003', 6, '2026-11-02 06:30:00+00', '2026-11-02 07:30:00+00');

insert into agreement_task (agreement, position, kind, amount, unit, item, size_mm, interval_days) values
    ('10000000-0000-7000-8000-000000000002', 7, 'SOCKS_LEFT', 3, 'count', null, 180, null);

insert into arrival_promise (planned_visit_id, service_date, from_time, until_time, confidence, told_at, told_by) values
    ('10000000-0000-7000-8000-000000000014', '2026-11-30', '08:00', '09:30', 85, '2026-11-26 18:00:00+00', 'c0000000-0000-7000-8000-000000000002');

insert into map_background (id, only_one, address, attribution, most_zoom, version) values
    ('f2000000-0000-7000-8000-000000000074', true, 'https://tiles.example/{z}/{x}/{y}.png', 'Whoever drew them', 17, 1);

insert into animal_delivery (id, planned_visit_id, what, packed_at, bag_minutes, acclimation_minutes) values
    ('f2000000-0000-7000-8000-000000000075', '10000000-0000-7000-8000-000000000014', '4 clownfish in 2 bags', '2026-11-30 06:30:00+00', 600, 45);

insert into site (id, code, client_id, name, postal_code, locality, latitude, longitude, own_tap, own_drain, own_ro_di, mixing_barrel, version) values
    ('d0000000-0000-7000-8000-000000000041', 'S-041', 'd0000000-0000-7000-8000-000000000002', 'Back yard', 'HB1 9ZZ', 'Harbourside', null, null, true, true, false, false, 0);

insert into work_proposal (id, water_system_id, source, reason, earliest, latest, planned_visit_id, withdrawn, proposed_at, page, minutes) values
    ('f2000000-0000-7000-8000-000000000076', 'f0000000-0000-7000-8000-000000000001', 'RETEST', 'Measure nitrate again', '2026-11-27', '2026-12-04', '10000000-0000-7000-8000-000000000014', false, '2026-11-26 18:00:00+00', '/readings/doubts', 20),
    ('f2000000-0000-7000-8000-000000000077', 'f0000000-0000-7000-8000-000000000001', 'REPAIR', 'Look at the pump', '2026-11-27', '2026-11-28', null, false, '2026-11-26 18:00:00+00', null, 480),
    ('f2000000-0000-7000-8000-000000000078', 'f0000000-0000-7000-8000-000000000003', 'OTHER', 'Bring the lid', '2026-11-27', '2026-11-28', null, true, '2026-11-26 18:00:00+00', null, 0),
    ('f2000000-0000-7000-8000-000000000080', 'f0000000-0000-7000-8000-000000000001', 'PLAN', 'Step 3 of a plan', '2026-11-28', '2026-11-30', null, false, '2026-11-27 01:00:00+00', '/plans/P-001', 15),
    ('f2000000-0000-7000-8000-000000000081', 'f0000000-0000-7000-8000-000000000001', 'TREATMENT', 'Second dose', '2026-11-28', '2026-11-30', null, false, '2026-11-27 01:00:00+00', '/quarantine/Q-001', 10),
    ('f2000000-0000-7000-8000-000000000082', 'f0000000-0000-7000-8000-000000000001', 'QUARANTINE', 'Look at the end of the quarantine', '2026-11-28', '2026-11-30', null, false, '2026-11-27 01:00:00+00', '/quarantine/Q-001', 30),
    ('f2000000-0000-7000-8000-000000000083', 'f0000000-0000-7000-8000-000000000001', 'LEFT_BEHIND', 'Filter left off', '2026-11-28', '2026-11-30', null, false, '2026-11-27 01:00:00+00', '/alerts', 5);

insert into interval_gap_kept (agreement_id, gaps, kept_by, kept_at) values
    ('10000000-0000-7000-8000-000000000002', 'SOCKS 2count 180 4/7', 'c0000000-0000-7000-8000-000000000002', '2026-11-27 01:10:00+00');

insert into place_centre (id, kind, name, latitude, longitude, version) values
    ('f2000000-0000-7000-8000-000000000090', 'POSTAL_CODE', 'HB1', 51.5, -0.12, 0),
    ('f2000000-0000-7000-8000-000000000091', 'LOCALITY', 'Harbourside', -33.25, 151.5, 2);

-- What the ledger, the water plan, the sock forecast and the load sheet keep.
insert into stock_lot (id, item_id, number, received_on, expires_on, version) values
    ('f3000000-0000-7000-8000-000000000001', '90000000-0000-7000-8000-000000000053', 'C-2207', '2026-10-01', '2028-09-30', 1),
    ('f3000000-0000-7000-8000-000000000002', '90000000-0000-7000-8000-000000000052', 'B14', '2026-11-01', null, 0);

insert into stock_movement (id, item_id, lot_id, amount, from_account, from_place, to_account, to_place, reason, note, source_kind, source_id, runs_ahead, moved_at, recorded_at, person_id) values
    ('f3000000-0000-7000-8000-000000000011', '90000000-0000-7000-8000-000000000051', null, 14, 'OPENING', null, 'DEPOT', null, 'OPENING', null, null, null, false, '2026-11-24 16:00:00+00', '2026-11-24 16:00:00+00', null),
    ('f3000000-0000-7000-8000-000000000012', '90000000-0000-7000-8000-000000000053', 'f3000000-0000-7000-8000-000000000001', 500.25, 'VAN', '40000000-0000-7000-8000-000000000011', 'USED', 'f0000000-0000-7000-8000-000000000001', 'USE', 'Both reactors', 'visit', 'e0000000-0000-7000-8000-000000000001', true, '2026-11-02 10:00:00+00', '2026-11-02 10:30:00+00', 'c0000000-0000-7000-8000-000000000003');

insert into stock_balance (item_id, lot_id, account, place, amount) values
    ('90000000-0000-7000-8000-000000000051', null, 'OPENING', null, -14),
    ('90000000-0000-7000-8000-000000000051', null, 'DEPOT', null, 14),
    ('90000000-0000-7000-8000-000000000053', 'f3000000-0000-7000-8000-000000000001', 'VAN', '40000000-0000-7000-8000-000000000011', -500.25),
    ('90000000-0000-7000-8000-000000000053', 'f3000000-0000-7000-8000-000000000001', 'USED', 'f0000000-0000-7000-8000-000000000001', 500.25);

insert into supplier (id, name, email, phone, customer_number, lead_days, lead_sd_days, order_every_days, version) values
    ('f3000000-0000-7000-8000-000000000021', 'Rope and Reef Supplies', 'orders@ropeandreef.example', '+44 1632 960177', 'LP-9', 4.5, 1.25, 14, 2);

insert into stock_supply (item_id, supplier_id, supplier_code, pack_name, pack_amount, pack_price, service_level, weekly_use, version) values
    ('90000000-0000-7000-8000-000000000052', 'f3000000-0000-7000-8000-000000000021', 'SM-22', 'bucket', 22.5, 61.40, 0.975, 18.5, 3);

insert into supplier_order (id, number, supplier_id, ordered_on, note, person_id) values
    ('f3000000-0000-7000-8000-000000000022', 1, 'f3000000-0000-7000-8000-000000000021', '2026-10-28', 'Ring before unloading.', 'c0000000-0000-7000-8000-000000000002');
select setval('supplier_order_number', 1);

insert into supplier_order_line (id, order_id, item_id, packs, supplier_code, pack_name, pack_amount, pack_price) values
    ('f3000000-0000-7000-8000-000000000023', 'f3000000-0000-7000-8000-000000000022', '90000000-0000-7000-8000-000000000052', 4, 'SM-22', 'bucket', 22.5, 61.40);

insert into delivery (id, order_id, supplier_id, note_number, received_on, recorded_at, person_id) values
    ('f3000000-0000-7000-8000-000000000024', 'f3000000-0000-7000-8000-000000000022', 'f3000000-0000-7000-8000-000000000021', 'DN-881', '2026-11-01', '2026-11-01 09:15:00+00', 'c0000000-0000-7000-8000-000000000003');

insert into delivery_line (delivery_id, order_line_id, packs) values
    ('f3000000-0000-7000-8000-000000000024', 'f3000000-0000-7000-8000-000000000023', 3);

insert into stock_label (item_id, shelf, barcode, hazard, sheet_id, version) values
    ('90000000-0000-7000-8000-000000000054', 'B2', '4006381333931', 'CAUSTIC', '60000000-0000-7000-8000-000000000001', 2);

insert into stock_count (id, counted_at, person_id) values
    ('f3000000-0000-7000-8000-000000000025', '2026-11-24 16:00:00+00', 'c0000000-0000-7000-8000-000000000003');

insert into sock_washing (only_one, wash_days, hours_until_clean, socks_in_load, loads_a_day, delivery_days, longest_swap_days, most_washes, version) values
    (true, '25', 36, 30, 2, 6, 10, 30, 4);

insert into task_use (visit_id, water_system_id, task, item, planned, used, used_on) values
    ('e0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'WATER_CHANGE', '', 63.64, 70.5, '2026-11-02'),
    ('e0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'TOP_UP', '', 5.5, 4.25, '2026-11-02'),
    ('e0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'SOCK_SWAP', '180', 2, 3, '2026-11-02'),
    ('e0000000-0000-7000-8000-000000000001', 'f0000000-0000-7000-8000-000000000001', 'DOSE', 'Alkalinity part:mL', 30, 0, '2026-11-02');

insert into learned_use (water_system_id, task, item, week, visits, mean, squares, visits_before, mean_before, squares_before) values
    ('f0000000-0000-7000-8000-000000000001', 'WATER_CHANGE', '', '2026-11-02', 1, 1.10779, 0, 0, 0, 0),
    ('f0000000-0000-7000-8000-000000000001', 'SOCK_SWAP', '180', '2026-11-02', 3, 1.25, 0.0625, 2, 1.125, 0.03125);

update visit set uses_told = true where id = 'e0000000-0000-7000-8000-000000000001';

insert into load_terms (id, only_one, by_use, water_few, water_many, salt_few, salt_many, socks_few, socks_many, doses_few, doses_many, safety_percent, version) values
    ('f3000000-0000-7000-8000-000000000031', true, true, 4.90, 0.10, 12, 0.25, 9.50, 0.50, 0.90, 0.05, 99.5, 2);

insert into water_vat (water_system_id, role, version) values
    ('f0000000-0000-7000-8000-00000000000b', 'PURIFIED', 1),
    ('f0000000-0000-7000-8000-000000000001', 'MIXING', 0);

insert into water_vat_level (id, water_system_id, litres, batch_id, read_at, person_id) values
    ('f3000000-0000-7000-8000-000000000032', 'f0000000-0000-7000-8000-00000000000b', 312.5, '90000000-0000-7000-8000-000000000062', '2026-11-20 17:00:00+00', 'c0000000-0000-7000-8000-000000000003');

insert into water_movement (id, from_system_id, to_system_id, litres, moved_at, person_id) values
    ('f3000000-0000-7000-8000-000000000033', null, 'f0000000-0000-7000-8000-00000000000b', 200, '2026-11-20 05:00:00+00', 'c0000000-0000-7000-8000-000000000003'),
    ('f3000000-0000-7000-8000-000000000034', 'f0000000-0000-7000-8000-00000000000b', null, 75.5, '2026-11-20 18:00:00+00', null);

insert into water_plant_terms (only_one, feed_c, rated_l_per_hour, loss_percent_per_year, fill_l_per_hour, salt_minutes, heat_minutes, circulate_minutes, measure_minutes, spare_minutes, load_minutes, attended_from, attended_until, leaves_at, night_from, night_until, version) values
    (true, 12.5, 31.5, 7, 900, 20, 240, 720, 15, 60, 45, '06:30', '18:00', '07:45', '23:00', '06:00', 3);

update water_batch set salt_lot = 'B14', water_mg_l = 4.5, release_reason = 'Read again with the pen, which agrees.'
where id = '90000000-0000-7000-8000-000000000062';

insert into water_batch_step (id, batch_id, position, kind, reading_id, salinity, celsius, salt_kg, water_l, taken_l, litres, at, person_id) values
    ('f3000000-0000-7000-8000-000000000035', '90000000-0000-7000-8000-000000000062', 1, 'MEASURED', '90000000-0000-7000-8000-000000000014', 33.1, 24.5, null, null, null, null, '2026-11-20 06:10:00+00', 'c0000000-0000-7000-8000-000000000003'),
    ('f3000000-0000-7000-8000-000000000036', '90000000-0000-7000-8000-000000000062', 2, 'CORRECTED', null, null, null, 0.42, 0, 1.5, 200, '2026-11-20 06:15:00+00', null);

insert into moved_change (from_visit_id, to_visit_id, litres, person_id, moved_at) values
    ('10000000-0000-7000-8000-000000000014', '10000000-0000-7000-8000-000000000016', 31.8, 'c0000000-0000-7000-8000-000000000002', '2026-11-26 19:00:00+00');

insert into mixed_on_site (planned_visit_id, person_id, decided_at) values
    ('10000000-0000-7000-8000-000000000014', 'c0000000-0000-7000-8000-000000000003', '2026-11-26 19:05:00+00');

insert into load_closing (id, round_id, round_version, person_id, closed_at) values
    ('f3000000-0000-7000-8000-000000000041', '20000000-0000-7000-8000-000000000001', 6, 'c0000000-0000-7000-8000-000000000003', '2026-11-02 07:40:00+00');

insert into load_closing_line (closing_id, line, place, item, planned, loaded, litres, safety, person_id, ticked_at, instead, reason) values
    ('f3000000-0000-7000-8000-000000000041', 'salt-water:35.0:full', 2, '2 drums of 25 L at salinity 35', 2, 2, 50, false, 'c0000000-0000-7000-8000-000000000004', '2026-11-02 07:21:00+00', null, null),
    ('f3000000-0000-7000-8000-000000000041', 'sock:180', 0, '4 filter socks of 180 mm', 4, 3, null, false, 'c0000000-0000-7000-8000-000000000004', '2026-11-02 07:22:00+00', 'A 200 mm one', 'None clean'),
    ('f3000000-0000-7000-8000-000000000041', 'instrument:I-001', 1, 'Refractometer', 1, 0, null, true, null, null, null, 'Olu brings it.');

-- What washes, containers and returns keep.
update visit set uses_booked = true where id = 'e0000000-0000-7000-8000-000000000001';

insert into sock_wash (id, apart, started_at, started_by, washed_at, washed_by, dry_at, dry_by) values
    ('f4000000-0000-7000-8000-000000000001', false, '2026-11-03 17:00:00+00', 'c0000000-0000-7000-8000-000000000003', '2026-11-03 19:10:00+00', 'c0000000-0000-7000-8000-000000000004', '2026-11-05 08:00:00+00', 'c0000000-0000-7000-8000-000000000002'),
    ('f4000000-0000-7000-8000-000000000002', true, '2026-11-26 17:00:00+00', null, null, null, null, null);

insert into sock_age (item_id, washes, count) values
    ('90000000-0000-7000-8000-000000000051', 0, 6),
    ('90000000-0000-7000-8000-000000000051', 11, 8);

insert into sock_tag (tag, item_id, washes, registered_at, out_at) values
    ('S-017', '90000000-0000-7000-8000-000000000051', 11, '2026-10-01 08:00:00+00', '2026-11-20 08:00:00+00'),
    ('S-018', '90000000-0000-7000-8000-000000000051', 0, '2026-10-01 08:00:00+00', null);

insert into sock_wash_tag (wash_id, tag) values ('f4000000-0000-7000-8000-000000000001', 'S-017');

insert into water_container (id, number, van_id, depot_id, role, size_l, empty_kg, pumped, stands_cm, out_of_use, version) values
    ('f4000000-0000-7000-8000-000000000011', '11', '40000000-0000-7000-8000-000000000011', null, 'SALT', 25, 1.35, false, 40, false, 2),
    ('f4000000-0000-7000-8000-000000000012', '12', '40000000-0000-7000-8000-000000000011', null, 'FRESH', 120, 8.5, true, 0, false, 0),
    ('f4000000-0000-7000-8000-000000000013', 'P1', null, '40000000-0000-7000-8000-000000000001', 'WASTE', 30.28, 1.8, false, 35.5, false, 1),
    ('f4000000-0000-7000-8000-000000000014', 'P2', null, '40000000-0000-7000-8000-000000000001', 'TREATMENT', 20, 1.1, false, 40, true, 3);

insert into container_wash (id, container_id, from_role, to_role, person_id, washed_on, recorded_at) values
    ('f4000000-0000-7000-8000-000000000015', 'f4000000-0000-7000-8000-000000000011', 'FRESH', 'SALT', 'c0000000-0000-7000-8000-000000000003', '2026-11-10', '2026-11-10 16:00:00+00'),
    ('f4000000-0000-7000-8000-000000000016', 'f4000000-0000-7000-8000-000000000012', 'SALT', 'FRESH', 'c0000000-0000-7000-8000-000000000003', '2026-11-11', '2026-11-11 16:00:00+00');

update van set floor_cm = 62.5 where id = '40000000-0000-7000-8000-000000000011';

insert into load_return (id, round_id, person_id, returned_at) values
    ('f4000000-0000-7000-8000-000000000021', '20000000-0000-7000-8000-000000000001', 'c0000000-0000-7000-8000-000000000003', '2026-11-02 16:10:00+00');

insert into load_return_line (return_id, line, place, item, unit, loaded, used, settled, back, stays, wasted, broken, reason) values
    ('f4000000-0000-7000-8000-000000000021', 'salt-water:35.0', 0, 'Salt water at salinity 35', 'LITRE', 50, 42.5, 0, 0, 0, 7.5, 0, null),
    ('f4000000-0000-7000-8000-000000000021', 'sock:180', 1, 'Clean filter socks of 180 mm', 'PIECE', 3, 2, 0, 0, 0, 0, 1, 'Torn on the holder'),
    ('f4000000-0000-7000-8000-000000000021', 'dry-salt', 2, 'Salt mix', 'KILOGRAM', 7.4, 7.1, 0, 0.3, 0, 0, 0, null),
    ('f4000000-0000-7000-8000-000000000021', 'media:carbon:g', 3, 'Carbon', 'GRAM', 500, 250.25, 0, 0, 249.75, 0, 0, null),
    ('f4000000-0000-7000-8000-000000000021', 'conditioner', 4, 'Water conditioner', 'MILLILITRE', 30, 12, -2, 20, 0, 0, 0, 'Found in the other bag');
