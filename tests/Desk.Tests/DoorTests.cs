using System.Net;
using System.Net.WebSockets;
using Athwart.Desk.Safety;

namespace Athwart.Desk.Tests;

/// <summary>Who comes in. Hosts, origins and fetch metadata as the Fetch standard (WHATWG) lets browsers send them.</summary>
public sealed class DoorTests(DeskFixture fixture) : IClassFixture<DeskFixture>
{
    private RunningDesk Desk => fixture.Desk;

    [Fact]
    public async Task ABrowserWithoutALink_SeesNothing()
    {
        using var stranger = Desk.Stranger();

        foreach (var path in (string[])["/takes", "/", "/desk/desk.css", "/_framework/blazor.web.js", "/_blazor/negotiate", "/kit/kit.json", "/desk/here"])
            Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(stranger, path));
    }

    [Fact]
    public async Task ABrowserWithTheLink_SeesTheTakes()
    {
        using var visitor = await Desk.VisitorAsync();

        var page = await visitor.GetStringAsync(new Uri("/takes", UriKind.Relative), TestContext.Current.CancellationToken);

        Assert.Contains("No take is in the library yet", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ALink_WorksOnce()
    {
        var link = Desk.EntryLink();
        using var first = Desk.Stranger();
        using var second = Desk.Stranger();

        Assert.Equal(HttpStatusCode.OK, await StatusAsync(first, link));
        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(second, link));
    }

    [Fact]
    public async Task AMadeUpLink_DoesNotWork()
    {
        using var stranger = Desk.Stranger();

        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(stranger, "/open?key=" + new string('0', 64)));
        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(stranger, "/open"));
    }

    [Fact]
    public void ALinkThatWaitedTooLong_DoesNotWork()
    {
        var clock = new HandClock();
        var tokens = new EntryTokens(clock);
        var token = tokens.New();

        clock.Now += EntryTokens.Lifetime + TimeSpan.FromSeconds(1);

        Assert.False(tokens.Use(token));
    }

    [Fact]
    public async Task TheCookie_IsKeptFromScriptsAndOtherSites()
    {
        using var stranger = Desk.Stranger();
        using var answer = await stranger.GetAsync(new Uri(Desk.EntryLink(), UriKind.Relative), TestContext.Current.CancellationToken);

        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"));

        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task AForgedCookie_IsNoCookie()
    {
        using var visitor = await Desk.VisitorAsync();
        var good = visitor.DefaultRequestHeaders.GetValues("Cookie").Single();
        using var forger = Desk.Stranger();
        forger.DefaultRequestHeaders.Add("Cookie", good[..^1] + (good[^1] == '0' ? '1' : '0'));

        Assert.Equal(HttpStatusCode.Unauthorized, await StatusAsync(forger, "/takes"));
    }

    [Theory]
    [InlineData("evil.example")]
    [InlineData("127.0.0.1.evil.example")]
    [InlineData("localhost:1")]
    [InlineData("127.0.0.1")]
    public async Task ACallByAnotherName_IsRefused(string host)
    {
        using var visitor = await Desk.VisitorAsync();
        visitor.DefaultRequestHeaders.Host = host;

        Assert.Equal(HttpStatusCode.Forbidden, await StatusAsync(visitor, "/takes"));
    }

    [Theory]
    [InlineData("http://evil.example")]
    [InlineData("null")]
    [InlineData("http://127.0.0.1:1")]
    public async Task ARequestFromAPageOfAnotherOrigin_IsRefused(string origin)
    {
        using var visitor = await Desk.VisitorAsync();
        visitor.DefaultRequestHeaders.Add("Origin", origin);

        Assert.Equal(HttpStatusCode.Forbidden, await StatusAsync(visitor, "/takes"));
    }

    [Theory]
    [InlineData("cross-site", "cors", "empty", HttpStatusCode.Forbidden)]
    [InlineData("same-site", "no-cors", "image", HttpStatusCode.Forbidden)]
    [InlineData("cross-site", "navigate", "iframe", HttpStatusCode.Forbidden)]
    [InlineData("cross-site", "navigate", "document", HttpStatusCode.OK)]
    [InlineData("same-origin", "cors", "empty", HttpStatusCode.OK)]
    [InlineData("none", "navigate", "document", HttpStatusCode.OK)]
    public async Task WhatTheBrowserSaysOfTheRequest_Decides(string site, string mode, string destination, HttpStatusCode expected)
    {
        using var visitor = await Desk.VisitorAsync();
        visitor.DefaultRequestHeaders.Add("Sec-Fetch-Site", site);
        visitor.DefaultRequestHeaders.Add("Sec-Fetch-Mode", mode);
        visitor.DefaultRequestHeaders.Add("Sec-Fetch-Dest", destination);

        Assert.Equal(expected, await StatusAsync(visitor, "/takes"));
    }

    [Fact]
    public async Task AWriteThatDoesNotSayWhereItComesFrom_IsRefused()
    {
        using var visitor = await Desk.VisitorAsync();
        using var nothing = new StringContent("");

        using var answer = await visitor.PostAsync(new Uri("/_blazor/negotiate?negotiateVersion=1", UriKind.Relative), nothing, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Theory]
    [InlineData("http://evil.example", false)]
    [InlineData(null, false)]
    [InlineData("own", true)]
    public async Task ASocket_OpensForOurOwnPagesOnly(string? origin, bool opens)
    {
        using var visitor = await Desk.VisitorAsync();
        using var socket = new ClientWebSocket();
        socket.Options.SetRequestHeader("Cookie", visitor.DefaultRequestHeaders.GetValues("Cookie").Single());
        if (origin is not null)
            socket.Options.SetRequestHeader("Origin", origin == "own" ? Desk.Address.GetLeftPart(UriPartial.Authority) : origin);

        var failure = await Record.ExceptionAsync(() => socket.ConnectAsync(new Uri($"ws://127.0.0.1:{Desk.Address.Port}/_blazor"), TestContext.Current.CancellationToken));

        Assert.Equal(opens, failure is null);
    }

    private static async Task<HttpStatusCode> StatusAsync(HttpClient client, string path)
    {
        using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    private sealed class HandClock : TimeProvider
    {
        public DateTimeOffset Now { get; set; } = new(2026, 5, 14, 6, 0, 0, TimeSpan.Zero);

        public override DateTimeOffset GetUtcNow() => Now;
    }
}
