package org.mixaccord.acceptance;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import io.quarkus.test.common.QuarkusTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.mixaccord.PostgresForTests;
import org.mixaccord.problem.Problem;

/** The page for people who write scripts, taken at its word. */
@QuarkusTest
@QuarkusTestResource(PostgresForTests.class)
class RoundByCurlTest {
  @Test
  void theScriptOfThePageWalksTheWholeRound(@TempDir Path folder) throws Exception {
    assumeTrue(System.getenv("CI") != null || isInstalled("curl"), "apt-get install -y curl");
    Owner.signedIn();
    Path said = folder.resolve("said");
    ProcessBuilder script =
        new ProcessBuilder("bash", Files.writeString(folder.resolve("round"), ApiPage.round()) + "")
            .redirectErrorStream(true)
            .redirectOutput(said.toFile());
    script.environment().put("BASE", RestAssured.baseURI + ":" + RestAssured.port);
    script.environment().put("EMAIL", Owner.EMAIL);
    script.environment().put("PASSWORD", Owner.PASSWORD);
    script.environment().put("MIX1", file(folder, "mix1.wav", Takes.second()));
    script.environment().put("MIX2", file(folder, "mix2.wav", Takes.third()));
    script.environment().put("MIX3", file(folder, "mix3.wav", Takes.third().oneStepOff()));
    Process running = script.start();
    boolean isOver = running.waitFor(3, TimeUnit.MINUTES);
    running.destroyForcibly();
    String words = Files.readString(said);
    assertTrue(isOver, words);
    assertEquals(0, running.exitValue(), words);
    String[] lines = words.strip().split("\n");
    assertEquals("Mix 1 before it was sent, to the artist: 404", lines[0], words);
    assertTrue(lines[1].matches("-\\d+\\.\\d+"), words);
    assertEquals(
        """
        the part asked for: lead vocal
        Mix 2 beside Mix 1: sections
        the change: good
        open points: []
        the approval: valid
        the song approved: true
        the approval of the same audio: valid
        approvals of the altered audio: []
        the song approved: false
        """
            .strip(),
        String.join("\n", Arrays.copyOfRange(lines, 2, 11)),
        words);
    assertTrue(words.contains("\"act\":"), words);
  }

  @Test
  void everyProblemHasItsParagraphAndNoParagraphIsLeftOver() throws IOException {
    Map<String, Integer> catalogue = new TreeMap<>();
    for (Problem problem : Problem.values()) {
      catalogue.put(problem.code(), problem.status());
    }
    assertEquals(catalogue, ApiPage.problems());
  }

  private static String file(Path folder, String name, Takes take) throws IOException {
    return Files.write(folder.resolve(name), take.wav()).toString();
  }

  private static boolean isInstalled(String program) {
    return Arrays.stream(System.getenv("PATH").split(File.pathSeparator))
        .anyMatch(folder -> Files.isExecutable(Path.of(folder, program)));
  }
}
