-- Which buffer a pH standard is, so that its value is known at any temperature; and what an electrode gave in it.
alter table standard
    add column buffer text check (buffer in ('PHTHALATE', 'PHOSPHATE', 'PHOSPHATE_SEVEN', 'BORAX', 'CARBONATE')),
    add check (buffer is null or kind = 'PH_BUFFER');
alter table calibration add column millivolts numeric check (millivolts between -1000 and 1000);
