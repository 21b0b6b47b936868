CREATE TABLE `gauge` (
	`source_id` integer PRIMARY KEY NOT NULL,
	`what` text DEFAULT '' NOT NULL,
	`resolution` real,
	`error_a` real,
	`error_k` real,
	`portable` integer DEFAULT false NOT NULL,
	`calibrated_on` text,
	`calibration_due` text,
	`note` text DEFAULT '' NOT NULL,
	`updated_at` integer NOT NULL,
	`account_id` integer,
	FOREIGN KEY (`source_id`) REFERENCES `source`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `gauge_study` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`gauge_id` integer NOT NULL,
	`kind` text NOT NULL,
	`feature_id` integer,
	`unit` text NOT NULL,
	`made_on` text NOT NULL,
	`note` text DEFAULT '' NOT NULL,
	`data` text NOT NULL,
	`settings` text NOT NULL,
	`result` text NOT NULL,
	`entered_at` integer NOT NULL,
	`account_id` integer,
	`superseded_by` integer,
	`withdrawn_at` integer,
	`withdrawn_because` text DEFAULT '' NOT NULL,
	FOREIGN KEY (`gauge_id`) REFERENCES `source`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`feature_id`) REFERENCES `feature`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`account_id`) REFERENCES `account`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `gauge_study_by_gauge` ON `gauge_study` (`gauge_id`,`kind`);--> statement-breakpoint
CREATE INDEX `gauge_study_by_feature` ON `gauge_study` (`feature_id`);