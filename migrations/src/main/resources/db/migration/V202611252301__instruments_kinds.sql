-- Kits with drops and kits with colours are told apart, and balances are checked too. What was a test kit is what such a
-- kit usually is: alkalinity, hardness, calcium and magnesium are titrated, the rest is compared with colours.
alter table instrument drop constraint instrument_kind_check;
update instrument
set kind = case
    when quantity in ('ALKALINITY', 'HARDNESS', 'CALCIUM', 'MAGNESIUM') then 'TITRATION_KIT'
    else 'COLOUR_KIT'
end
where kind = 'TEST_KIT';
alter table instrument
    add check (kind in ('REFRACTOMETER', 'HYDROMETER', 'SWING_ARM', 'CONDUCTIVITY_METER', 'TDS_PEN', 'PH_METER', 'THERMOMETER',
        'OXYGEN_PROBE', 'TITRATION_KIT', 'COLOUR_KIT', 'PHOTOMETER', 'BALANCE')),
    add check ((kind = 'BALANCE') = (quantity = 'MASS')),
    -- whether it makes up for temperature by itself; null if nobody said so
    add column compensation text check (compensation in ('AUTOMATIC', 'NONE')),
    -- where its scale begins and ends, in its unit
    add column range_low numeric,
    add column range_high numeric,
    add check (range_low < range_high);

alter table standard drop constraint standard_kind_check;
alter table standard
    add check (kind in ('PURE_WATER', 'SEAWATER', 'SODIUM_CHLORIDE', 'CONDUCTIVITY', 'PH_BUFFER', 'REFERENCE_THERMOMETER',
        'AIR_SATURATED_WATER', 'KNOWN_CONCENTRATION', 'TEST_MASS', 'OTHER'));
