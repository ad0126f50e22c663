package org.mixaccord.acceptance;

import io.quarkus.test.junit.callback.QuarkusTestBeforeEachCallback;
import io.quarkus.test.junit.callback.QuarkusTestMethodContext;
import io.restassured.RestAssured;
import io.restassured.config.DecoderConfig;
import java.nio.charset.StandardCharsets;

/** JSON is UTF-8 whatever language the machine is set to; the client would go by the machine. */
public class AnswersInUtf8 implements QuarkusTestBeforeEachCallback {
  @Override
  public void beforeEach(QuarkusTestMethodContext context) {
    RestAssured.config =
        RestAssured.config()
            .decoderConfig(
                DecoderConfig.decoderConfig().defaultContentCharset(StandardCharsets.UTF_8.name()));
  }
}
