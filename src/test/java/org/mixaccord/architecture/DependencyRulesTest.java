package org.mixaccord.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.ArrayList;
import java.util.List;

/** Holds the wall between the pure cores and the service, and the direction of every dependency. */
@AnalyzeClasses(packages = "org.mixaccord", importOptions = ImportOption.DoNotIncludeTests.class)
class DependencyRulesTest {
  private static final String BASE = "org.mixaccord.";
  private static final String[] LIBRARIES_OF_THE_CORES = {
    "java..", "org.jtransforms..", "pl.edu.icm.."
  };

  @ArchTest static final ArchRule audioStandsAlone = core("audio");
  @ArchTest static final ArchRule measureUsesAudio = core("measure", "audio");
  @ArchTest static final ArchRule alignUsesMeasure = core("align", "measure", "audio");
  @ArchTest static final ArchRule compareUsesAlign = core("compare", "align", "measure", "audio");
  @ArchTest static final ArchRule notesKnowOnlyWords = core("notes");
  @ArchTest static final ArchRule threadsStandAlone = core("threads");
  @ArchTest static final ArchRule filenamesKnowOnlyWords = core("filenames", "notes");

  @ArchTest
  static final ArchRule changesMeetNotesAndFigures =
      core("changes", "notes", "compare", "align", "audio");

  @ArchTest
  static final ArchRule reviewDecidesOnFacts =
      core("review", "changes", "compare", "align", "audio");

  /** Beside the cores' libraries it has those that lay out a printed page. */
  @ArchTest
  static final ArchRule workSheetsKnowTimesAndWords =
      classes()
          .that()
          .resideInAPackage(BASE + "worksheet..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage(
              "java..",
              "com.openhtmltopdf..",
              "org.apache.fontbox..",
              "org.apache.pdfbox..",
              BASE + "worksheet..",
              BASE + "audio..");

  @ArchTest static final ArchRule problemIsALeaf = core("problem");

  @ArchTest
  static final ArchRule accountsAreBelowAllOthers =
      mayNotUse(
          "accounts",
          "songs",
          "record",
          "storage",
          "intake",
          "jobs",
          "api",
          "web",
          "demo",
          "server");

  @ArchTest
  static final ArchRule songsAreBelowTheRecord =
      mayNotUse("songs", "record", "storage", "intake", "jobs", "api", "web", "demo", "server");

  @ArchTest
  static final ArchRule theRecordKnowsNoFiles =
      mayNotUse("record", "storage", "intake", "jobs", "api", "web", "demo", "server");

  @ArchTest
  static final ArchRule storageIsBelowIntake =
      mayNotUse("storage", "intake", "jobs", "api", "web", "demo", "server");

  @ArchTest
  static final ArchRule intakeIsBelowJobs =
      mayNotUse("intake", "jobs", "api", "web", "demo", "server");

  @ArchTest
  static final ArchRule jobsAreBelowTheApi = mayNotUse("jobs", "api", "web", "demo", "server");

  @ArchTest
  static final ArchRule theApiDoesNotKnowThePage = mayNotUse("api", "web", "demo", "server");

  @ArchTest
  static final ArchRule nativeCodeIsCalledInTheChildOnly =
      noClasses()
          .that()
          .resideOutsideOfPackage(BASE + "intake.coder..")
          .should()
          .dependOnClassesThat()
          .resideInAPackage("org.bytedeco.ffmpeg..");

  @ArchTest
  static final ArchRule theChildStandsAlone =
      classes()
          .that()
          .resideInAPackage(BASE + "intake.coder..")
          .should()
          .onlyDependOnClassesThat()
          .resideInAnyPackage("java..", "org.bytedeco..", BASE + "intake.coder..");

  private static ArchRule core(String name, String... others) {
    List<String> allowed = new ArrayList<>(List.of(LIBRARIES_OF_THE_CORES));
    allowed.add(BASE + name + "..");
    for (String other : others) {
      allowed.add(BASE + other + "..");
    }
    return classes()
        .that()
        .resideInAPackage(BASE + name + "..")
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage(allowed.toArray(String[]::new))
        .allowEmptyShould(true);
  }

  private static ArchRule mayNotUse(String name, String... above) {
    String[] packages = new String[above.length];
    for (int i = 0; i < above.length; i++) {
      packages[i] = BASE + above[i] + "..";
    }
    return noClasses()
        .that()
        .resideInAPackage(BASE + name + "..")
        .should()
        .dependOnClassesThat()
        .resideInAnyPackage(packages)
        .allowEmptyShould(true);
  }
}
