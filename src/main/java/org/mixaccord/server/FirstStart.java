package org.mixaccord.server;

import static java.nio.charset.StandardCharsets.UTF_8;

import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.PrintStream;
import org.mixaccord.accounts.AccountsConfig;
import org.mixaccord.accounts.Links;
import org.mixaccord.accounts.SignIn;
import org.mixaccord.demo.DemoConfig;
import org.mixaccord.demo.DemoStart;

/** Makes the first account possible, and ends the console with what a person needs next. */
@ApplicationScoped
public class FirstStart {
  private final AccountsConfig accounts;
  private final SignIn signIn;
  private final Links links;
  private final DemoConfig demoConfig;
  private final DemoStart demo;

  FirstStart(
      AccountsConfig accounts, SignIn signIn, Links links, DemoConfig demoConfig, DemoStart demo) {
    this.accounts = accounts;
    this.signIn = signIn;
    this.links = links;
    this.demoConfig = demoConfig;
    this.demo = demo;
  }

  void start(@Observes @Priority(9000) StartupEvent event) {
    StringBuilder said = new StringBuilder("\n");
    if (demoConfig.demo()) {
      demo.people().forEach(said::append);
    }
    if (accounts.ownerEmail().isPresent() && accounts.ownerPassword().isPresent()) {
      signIn
          .makeFirstOwner(accounts.ownerEmail().get(), accounts.ownerPassword().get())
          .ifPresent(
              owner ->
                  said.append("Sign in as ").append(accounts.ownerEmail().get()).append(".\n"));
    } else if (!demoConfig.demo()) {
      signIn
          .setUpLink()
          .ifPresent(
              secret ->
                  said.append("Set this server up, once, at ")
                      .append(links.setUp(secret))
                      .append('\n'));
    }
    said.append("Mixaccord is at ").append(links.base());
    if (!links.reachable()) {
      said.append(
          "  (this and other links work on this computer only; MIXACCORD_PUBLIC_URL names another address)");
    }
    // Names of people carry letters that the machine's own character set may lack.
    PrintStream console = new PrintStream(new FileOutputStream(FileDescriptor.out), true, UTF_8);
    console.println(said);
  }
}
