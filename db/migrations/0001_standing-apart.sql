CREATE TABLE `feature_standing` (
	`feature_id` integer PRIMARY KEY NOT NULL,
	`recent` text NOT NULL,
	`standing` text NOT NULL
);
--> statement-breakpoint
ALTER TABLE `feature_state` DROP COLUMN `summary`;