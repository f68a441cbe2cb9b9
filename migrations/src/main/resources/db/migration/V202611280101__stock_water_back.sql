-- What a movement of water was: a run of the plant, between vats, into drums, away down the drain, or back out of drums. What went
-- nowhere before this was kept is taken to have gone into drums.
alter table water_movement add column kind text;
update water_movement
set kind = case
    when from_system_id is null then 'RUN'
    when to_system_id is null then 'DRUMS'
    else 'BETWEEN'
end;
alter table water_movement
    alter column kind set not null,
    add constraint water_movement_kind check (
        case kind
            when 'RUN' then from_system_id is null
            when 'BACK' then from_system_id is null
            when 'BETWEEN' then from_system_id is not null and to_system_id is not null
            when 'DRUMS' then to_system_id is null
            when 'AWAY' then to_system_id is null
            else false
        end
    ),
    -- where it is told why, such as the return of a round
    add column page text check (page like '/%');

-- Water that came back from a round and waits in its drums for the next one.
create table kept_water (
    id          uuid        primary key,
    depot_id    uuid        not null references depot (id),
    -- practical salinity; null of purified water
    salinity    double precision check (salinity > 0 and salinity <= 45),
    litres      double precision not null check (litres > 0 and litres <= 100000),
    -- the last day on which it goes into a system
    good_until  date        not null,
    kept_at     timestamptz not null,
    person_id   uuid        references person (id),
    page        text        not null check (page like '/%')
);
create index kept_water_depot_id on kept_water (depot_id, kept_at);
create index kept_water_person_id on kept_water (person_id);

-- What became of it, in parts.
create table kept_water_end (
    id             uuid        primary key,
    kept_water_id  uuid        not null references kept_water (id),
    litres         double precision not null check (litres > 0),
    what           text        not null check (what in ('LOADED', 'AWAY', 'VAT')),
    -- into which vat
    movement_id    uuid        references water_movement (id),
    ended_at       timestamptz not null,
    person_id      uuid        references person (id),
    check ((what = 'VAT') = (movement_id is not null))
);
create index kept_water_end_kept_water_id on kept_water_end (kept_water_id);
create index kept_water_end_movement_id on kept_water_end (movement_id);
create index kept_water_end_person_id on kept_water_end (person_id);
