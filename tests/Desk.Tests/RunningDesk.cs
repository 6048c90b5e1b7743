using Athwart.Desk.Safety;
using Athwart.Tests.Shared;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.Extensions.DependencyInjection;

namespace Athwart.Desk.Tests;

/// <summary>A real desk on a free port of this machine, over an own library.</summary>
internal sealed class RunningDesk : IAsyncDisposable
{
    private readonly TemporaryFolder _folder = new();

    private RunningDesk()
    {
    }

    public WebApplication App { get; private set; } = null!;

    public Uri Address { get; private set; } = null!;

    public string Library => _folder.File("library");

    public static async Task<RunningDesk> StartAsync(Func<DeskOptions, DeskOptions>? change = null)
    {
        var desk = new RunningDesk();
        var options = new DeskOptions { Library = desk.Library, Deliveries = desk._folder.File("deliveries"), StateFolder = desk._folder.File("state"), Port = 0 };
        desk.App = DeskHost.Create(change?.Invoke(options) ?? options);
        await desk.App.StartAsync();
        desk.Address = new($"http://127.0.0.1:{DeskAddress.PortOf(desk.App.Services.GetRequiredService<IServer>())}");
        return desk;
    }

    /// <summary>A browser that was not let in.</summary>
    public HttpClient Stranger() => new(new SocketsHttpHandler { AllowAutoRedirect = false }) { BaseAddress = Address };

    /// <summary>A browser that came in by a link.</summary>
    public async Task<HttpClient> VisitorAsync()
    {
        var client = Stranger();
        using var answer = await client.GetAsync(new Uri(EntryLink(), UriKind.Relative));
        client.DefaultRequestHeaders.Add("Cookie", answer.Headers.GetValues("Set-Cookie").Single().Split(';')[0]);
        return client;
    }

    public string EntryLink() => "/open?key=" + App.Services.GetRequiredService<EntryTokens>().New();

    public async ValueTask DisposeAsync()
    {
        await App.DisposeAsync();
        _folder.Dispose();
    }
}
