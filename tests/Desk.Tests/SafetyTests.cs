using System.Net;
using System.Net.Sockets;
using System.Text;
using Athwart.Catalogue;
using Athwart.Desk.Documents;
using Athwart.Jobs;
using Athwart.Jobs.Cards;
using Athwart.Tests.Shared;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.SignalR;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;

namespace Athwart.Desk.Tests;

public sealed class SafetyTests(DeskFixture fixture) : IClassFixture<DeskFixture>
{
    private RunningDesk Desk => fixture.Desk;

    [Fact]
    public void WithoutWords_TheDeskListensToThisMachineOnly()
    {
        var options = DeskOptions.Parse([]);

        Assert.Equal(IPAddress.Loopback, options.Address);
        Assert.True(options.IsThisMachineOnly);
    }

    [Fact]
    public async Task TheDesk_ListensOnNoOtherAddress()
    {
        using var socket = new TcpClient();

        // Another address of the loopback network: what listens everywhere would answer there too.
        await Assert.ThrowsAnyAsync<SocketException>(() => socket.ConnectAsync(IPAddress.Parse("127.0.0.2"), Desk.Address.Port, TestContext.Current.CancellationToken).AsTask());
    }

    [Fact]
    public async Task EveryAnswer_CarriesAPolicyWithoutInlineScriptOrStyle()
    {
        using var visitor = await Desk.VisitorAsync();
        foreach (var path in (string[])["/takes", "/desk/desk.js", "/nowhere"])
        {
            using var answer = await visitor.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
            var policies = answer.Headers.GetValues("Content-Security-Policy").ToList();

            Assert.Contains(policies, p => p.Contains("default-src 'none'", StringComparison.Ordinal) && p.Contains("script-src 'self'", StringComparison.Ordinal));
            Assert.DoesNotContain(policies, p => p.Contains("unsafe", StringComparison.Ordinal) || p.Contains('*', StringComparison.Ordinal));
            Assert.Equal("nosniff", Assert.Single(answer.Headers.GetValues("X-Content-Type-Options")));
            Assert.Equal("no-referrer", Assert.Single(answer.Headers.GetValues("Referrer-Policy")));
        }
    }

    [Theory]
    [InlineData("/desk/../../../../../../etc/passwd")]
    [InlineData("/desk/..%2f..%2f..%2f..%2f..%2fetc%2fpasswd")]
    [InlineData("/%2e%2e/%2e%2e/%2e%2e/%2e%2e/etc/passwd")]
    [InlineData("/kit/..%2f..%2fathwart-library.db")]
    [InlineData("/deliveries/000000000000/files/../../../etc/passwd")]
    public async Task NoPath_LeadsOutOfWhatTheDeskServes(string path)
    {
        using var visitor = await Desk.VisitorAsync();
        var cookie = visitor.DefaultRequestHeaders.GetValues("Cookie").Single();

        // By hand: a client would tidy the path up before sending it.
        using var socket = new TcpClient();
        await socket.ConnectAsync(IPAddress.Loopback, Desk.Address.Port, TestContext.Current.CancellationToken);
        await using var stream = socket.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"GET {path} HTTP/1.1\r\nHost: 127.0.0.1:{Desk.Address.Port}\r\nCookie: {cookie}\r\nConnection: close\r\n\r\n"), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream);
        var answer = await reader.ReadToEndAsync(TestContext.Current.CancellationToken);

        Assert.DoesNotContain("root:", answer, StringComparison.Ordinal);
        Assert.DoesNotContain("SQLite", answer, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("..")]
    [InlineData("../outside")]
    [InlineData("in/../../outside")]
    [InlineData("/etc")]
    [InlineData("link")]
    public void ACardFolder_LeadsNowhereElse(string path)
    {
        using var folder = new TemporaryFolder();
        var card = Directory.CreateDirectory(folder.File("card")).FullName;
        Directory.CreateDirectory(folder.File("card/in"));
        Directory.CreateDirectory(folder.File("outside"));
        Directory.CreateSymbolicLink(folder.File("card/link"), folder.File("outside"));
        var folders = new CardFolders([card]);

        Assert.Equal("in", Assert.Single(folders.In(0, "")).Name);
        Assert.Throws<JobException>(() => folders.FullPath(0, path));
    }

    [Theory]
    [InlineData("report.html", true)]
    [InlineData("a.wav", true)]
    [InlineData("secret.txt", false)]
    [InlineData("../secret.txt", false)]
    [InlineData("b.wav", false)]
    public void ADeliveredFile_IsOneOfTheManifest(string path, bool served)
    {
        using var folder = new TemporaryFolder();
        var place = Directory.CreateDirectory(folder.File("delivery")).FullName;
        foreach (var name in (string[])["report.html", "a.wav", "secret.txt", "../secret.txt"])
            File.WriteAllText(Path.Combine(place, name), "x");
        File.CreateSymbolicLink(Path.Combine(place, "b.wav"), Path.Combine(place, "../secret.txt"));
        var delivery = new Delivery { Folder = place, Date = DateTimeOffset.UnixEpoch, Effects = [new(null, "a", [new("stereo", "a.wav", 1, ""), new("stereo", "b.wav", 1, "")])] };

        Assert.Equal(served, DeskDocuments.DeliveredFile(delivery, path) is not null);
    }

    [Fact]
    public void RequestsAndMessages_HaveALimit()
    {
        var kestrel = Desk.App.Services.GetRequiredService<IOptions<KestrelServerOptions>>().Value;
        var hub = Desk.App.Services.GetRequiredService<IOptionsMonitor<HubOptions>>();

        Assert.Equal(1024 * 1024, kestrel.Limits.MaxRequestBodySize);
        Assert.InRange(kestrel.Limits.MaxConcurrentConnections ?? long.MaxValue, 1, 1000);
        Assert.InRange(kestrel.Limits.MaxConcurrentUpgradedConnections ?? long.MaxValue, 1, 1000);
        Assert.InRange(hub.CurrentValue.MaximumReceiveMessageSize ?? long.MaxValue, 1, 64 * 1024);
    }

    [Fact]
    public async Task AnAddressLongerThanAnyOfOurs_IsRefused()
    {
        using var visitor = await Desk.VisitorAsync();

        using var answer = await visitor.GetAsync(new Uri("/find?q=" + new string('a', 20_000), UriKind.Relative), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.RequestUriTooLong, answer.StatusCode);
    }

    [Fact]
    public async Task TheKeyOfVisits_IsReadableByItsOwnerOnly()
    {
        using var visitor = await Desk.VisitorAsync();
        if (OperatingSystem.IsWindows())
            throw new PlatformNotSupportedException("Windows has other rights; the tests run on Linux.");

        var mode = File.GetUnixFileMode(Directory.GetFiles(Desk.StateFolder).Single());

        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, mode);
    }

    [Fact]
    public void ADocument_MayUseItsOwnStyleAndNothingElse()
    {
        var policy = DocumentPolicy.For("<html><style>p{margin:0}</style><p style=\"color:red\"></html>");

        // SHA-256 in base64 of 'p{margin:0}' and of 'color:red', by openssl dgst -sha256 -binary | base64.
        Assert.Contains("'sha256-QRQPRLGyxt3RJiKpYNjpkgHcmHU2PywsfL2e8oI0LQA='", policy, StringComparison.Ordinal);
        Assert.Contains("'sha256-8f935d27GvUutRyY9yWScUMiFUk4WTdZURISiYfPOeQ='", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe-inline", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("script-src", policy, StringComparison.Ordinal);
        Assert.Contains("default-src 'none'", policy, StringComparison.Ordinal);
    }
}
