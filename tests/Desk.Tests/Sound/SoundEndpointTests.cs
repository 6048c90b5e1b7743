using System.Net;
using System.Text.Json;
using Athwart.Catalogue;
using Athwart.Jobs.Sessions;
using Athwart.Jobs.Shape;
using Athwart.Jobs.TakeIn;
using Athwart.Recordings;
using Athwart.Signals.Shaping;

namespace Athwart.Desk.Tests.Sound;

public sealed class SoundEndpointTests
{
    [Fact]
    public async Task ATake_IsDescribed_Played_AndDrawn_ByItsId()
    {
        await using var desk = await RunningDesk.StartAsync();
        var id = AddTake(desk.Library);
        using var visitor = await desk.VisitorAsync();
        var about = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}"))).RootElement;
        Assert.Equal(("gate", 5000, 48_000), (about.GetProperty("name").GetString(), about.GetProperty("frames").GetInt32(), about.GetProperty("rate").GetInt32()));
        var key = about.GetProperty("key").GetString();

        var pair = await visitor.GetByteArrayAsync(Relative($"/sound/{id}/pair?from=4990&frames=100"));
        Assert.Equal(10 * 2 * sizeof(float), pair.Length);
        Assert.Equal(0.25f, BitConverter.ToSingle(pair));
        Assert.Equal(-0.125f, BitConverter.ToSingle(pair, 10 * sizeof(float)));

        using var tile = await Patient(visitor, $"/sound/{id}/peaks/5/0?v={key}");
        Assert.Contains("immutable", tile.Headers.CacheControl!.ToString(), StringComparison.Ordinal);
        Assert.Equal(5 * 22, (await tile.Content.ReadAsByteArrayAsync()).Length);
        using var picture = await Patient(visitor, $"/sound/{id}/spectrum/mid-side/3/0");
        Assert.Equal("no-store", picture.Headers.CacheControl!.ToString());
        Assert.Equal(2 * 160 * 256, (await picture.Content.ReadAsByteArrayAsync()).Length);
        var powers = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}/powers?from=0&to=5000"))).RootElement;
        Assert.Equal(5000, powers.GetProperty("frames").GetInt32());
    }

    // −6.0206 dB is a half: the treated side is half of what the take holds, the mid is what it was.
    [Fact]
    public async Task ATake_IsPlayedAsTreated_AndAnotherTreatmentHasAnotherVersion()
    {
        await using var desk = await RunningDesk.StartAsync();
        var id = AddTake(desk.Library);
        using var visitor = await desk.VisitorAsync();
        var none = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}/treated"))).RootElement;
        Assert.Equal("", none.GetProperty("version").GetString());

        Treat(desk.Library, id, -20 * Math.Log10(2));
        var about = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}/treated"))).RootElement;
        Assert.Equal((5000, 1), (about.GetProperty("frames").GetInt32(), about.GetProperty("steps").GetInt32()));
        var pair = await visitor.GetByteArrayAsync(Relative($"/sound/{id}/treated/pair?from=4990&frames=100"));
        Assert.Equal(10 * 2 * sizeof(float), pair.Length);
        Assert.Equal(0.25f, BitConverter.ToSingle(pair));
        Assert.Equal(-0.0625f, BitConverter.ToSingle(pair, 10 * sizeof(float)), 1e-7f);
        var raw = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}/powers?from=0&to=5000"))).RootElement;
        var treated = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}/treated/powers?from=0&to=5000"))).RootElement;
        Assert.Equal(raw.GetProperty("side").GetDouble() / 4, treated.GetProperty("side").GetDouble(), 1e-9);
        Assert.Equal(raw.GetProperty("mid").GetDouble(), treated.GetProperty("mid").GetDouble(), 1e-9);

        Treat(desk.Library, id, 0);
        var again = JsonDocument.Parse(await visitor.GetStringAsync(Relative($"/sound/{id}/treated"))).RootElement;
        Assert.NotEqual(about.GetProperty("version").GetString(), again.GetProperty("version").GetString(), StringComparer.Ordinal);
        using var far = await visitor.GetAsync(Relative($"/sound/{id}/treated/pair?from=0&frames=262145"));
        Assert.Equal(HttpStatusCode.BadRequest, far.StatusCode);
        using var other = await visitor.GetAsync(Relative($"/sound/{id}/treated?effect=0123456789ab"));
        Assert.Equal(HttpStatusCode.NotFound, other.StatusCode);
    }

    private static void Treat(string folder, string take, double sideDecibels)
    {
        using var library = Library.Open(folder, LibraryAccess.Write);
        var before = library.GetTreatment(TreatmentScope.Take, take)?.Json;
        new TreatmentsJob().Set(folder, (TreatmentScope.Take, take), (before, new() { Name = "half", Steps = [TreatmentStep.Of(new Trim(PairRoles.Side, sideDecibels))] }), "half");
    }

    [Theory]
    [InlineData("/sound/0123456789ab", HttpStatusCode.NotFound)]
    [InlineData("/sound/0123456789AB", HttpStatusCode.NotFound)]
    [InlineData("/sound/..%2F..%2Fetc%2Fp", HttpStatusCode.NotFound)]
    [InlineData("/sound/............", HttpStatusCode.NotFound)]
    [InlineData("/sound/ID/pair?from=0&frames=262145", HttpStatusCode.BadRequest)]
    [InlineData("/sound/ID/pair?from=-1&frames=1", HttpStatusCode.BadRequest)]
    [InlineData("/sound/ID/pair?from=0", HttpStatusCode.BadRequest)]
    [InlineData("/sound/ID/peaks/99/0", HttpStatusCode.BadRequest)]
    [InlineData("/sound/ID/peaks/0/-1", HttpStatusCode.BadRequest)]
    [InlineData("/sound/ID/spectrum/up-down/3/0", HttpStatusCode.BadRequest)]
    public async Task WhatMakesNoSense_IsRefused(string address, HttpStatusCode status)
    {
        await using var desk = await RunningDesk.StartAsync();
        var id = AddTake(desk.Library);
        using var visitor = await desk.VisitorAsync();
        using var ready = await Patient(visitor, $"/sound/{id}/peaks/5/0");
        using var answer = await visitor.GetAsync(Relative(address.Replace("ID", id, StringComparison.Ordinal)));
        Assert.Equal(status, answer.StatusCode);
    }

    [Fact]
    public async Task AStranger_HearsNothing()
    {
        await using var desk = await RunningDesk.StartAsync();
        var id = AddTake(desk.Library);
        using var stranger = desk.Stranger();
        using var answer = await stranger.GetAsync(Relative($"/sound/{id}/pair?from=0&frames=10"));
        Assert.Equal(HttpStatusCode.Unauthorized, answer.StatusCode);
    }

    [Fact]
    public async Task WithoutALibrary_EveryTakeIsUnknown()
    {
        await using var desk = await RunningDesk.StartAsync();
        using var visitor = await desk.VisitorAsync();
        using var answer = await visitor.GetAsync(Relative("/sound/0123456789ab"));
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
    }

    private static Uri Relative(string address) => new(address, UriKind.Relative);

    // 202 means that the peaks are being made.
    private static async Task<HttpResponseMessage> Patient(HttpClient client, string address)
    {
        for (var tries = 0; ; tries++)
        {
            var answer = await client.GetAsync(Relative(address));
            if (answer.StatusCode != HttpStatusCode.Accepted || tries > 200)
                return answer.EnsureSuccessStatusCode();
            answer.Dispose();
            await Task.Delay(20);
        }
    }

    private static string AddTake(string folder)
    {
        var card = Directory.CreateTempSubdirectory("athwart-test-").FullName;
        try
        {
            using (var writer = WaveWriter.Create(Path.Combine(card, "gate.wav"), new() { ChannelCount = 2, SampleRateHertz = 48_000, Format = SampleFormat.Float32, Durable = false }))
            {
                PlanarBlock<double> block = new(2, 5000) { Length = 5000 };
                block.Channel(0).Fill(0.25);
                block.Channel(1).Fill(-0.125);
                writer.Write(block);
                writer.Complete();
            }

            new TakeInJob().Run(new() { Sources = [card], LibraryFolder = folder, SessionName = "Lock", Date = new(2026, 5, 14) }, null, CancellationToken.None);
            using var library = Library.Open(folder, LibraryAccess.Write);
            return SessionLoader.Load(library, "Lock", CancellationToken.None).Takes[0].Catalogued.Id.Value;
        }
        finally
        {
            Directory.Delete(card, recursive: true);
        }
    }
}
