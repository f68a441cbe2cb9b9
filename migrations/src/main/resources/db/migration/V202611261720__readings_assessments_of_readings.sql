-- Each reading has one row in newest_assessment, which names a reading that exists; further assessments are only made of
-- readings found there, and no reading is ever deleted. To look each of tens of thousands up once more, and lock it, when
-- an instrument is condemned guards nothing.
alter table assessment drop constraint assessment_reading_id_fkey;
