using Athwart.Desk.Documents;
using Athwart.Desk.Layout;
using Athwart.Desk.Safety;
using Athwart.Desk.Sound;
using Athwart.Desk.Work;
using Athwart.Jobs.Cards;
using Athwart.Jobs.Listening;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting.StaticWebAssets;

namespace Athwart.Desk;

/// <summary>Puts the web application together.</summary>
internal static class DeskHost
{
    /// <summary>The most bytes a request may bring, and the most one message of a page may hold: a kit as CSV is far below.</summary>
    public const long LargestRequestBytes = 1024 * 1024;

    /// <summary>Builds the application, not yet started.</summary>
    public static WebApplication Create(DeskOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        // Not the folder the desk is started from: its files lie beside the program.
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(DeskHost).Assembly.GetName().Name });
        StaticWebAssetsLoader.UseStaticWebAssets(builder.Environment, builder.Configuration);
        builder.Configuration.Sources.Clear();
        Listen(builder, options);
        Log(builder);
        AddServices(builder.Services, options);
        var app = builder.Build();
        Map(app);
        return app;
    }

    private static void Listen(WebApplicationBuilder builder, DeskOptions options) => builder.WebHost.ConfigureKestrel(kestrel =>
    {
        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxRequestBodySize = LargestRequestBytes;
        kestrel.Limits.MaxRequestLineSize = 8 * 1024;
        kestrel.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
        kestrel.Limits.MaxConcurrentConnections = 256;
        kestrel.Limits.MaxConcurrentUpgradedConnections = 64;
        kestrel.Listen(options.Address, options.Port ?? 0);
    });

    // Warnings only: an ordinary request leaves no trace, so neither tokens nor names of takes can.
    private static void Log(WebApplicationBuilder builder)
    {
        builder.Logging.ClearProviders();
        builder.Logging.AddSimpleConsole(c => c.SingleLine = true);
        builder.Logging.SetMinimumLevel(LogLevel.Warning);
        // The key for page state lives for one run on purpose.
        builder.Logging.AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error);
    }

    private static void AddServices(IServiceCollection services, DeskOptions options)
    {
        services.AddSingleton(options);
        // Open pages keep their sockets; they are told by the socket's end, not waited for.
        services.Configure<HostOptions>(host => host.ShutdownTimeout = TimeSpan.FromSeconds(2));
        services.AddSingleton(TimeProvider.System);
        services.AddSingleton<EntryTokens>();
        services.AddSingleton<VisitCookie>();
        services.AddSingleton(_ => new RequestRules(DeskAddress.HostNames(options)));
        services.AddSingleton<OpenLibrary>();
        services.AddSound();
        services.AddSingleton<Worklist>();
        services.AddSingleton(_ => new ListeningRoom(options.Library));
        services.AddSingleton<Strips>();
        services.AddSingleton(_ => new CardFolders(options.CardFolders, options.Mounts));
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddRazorComponents().AddInteractiveServerComponents(circuit =>
        {
            circuit.DisconnectedCircuitRetentionPeriod = TimeSpan.FromMinutes(10);
            circuit.DisconnectedCircuitMaxRetained = 20;
        }).AddHubOptions(hub => hub.MaximumReceiveMessageSize = 64 * 1024);
    }

    private static void Map(WebApplication app)
    {
        app.UseMiddleware<SafetyHeaders>();
        app.UseMiddleware<RequestGuard>();
        // A browser shows a page of its own for an answer without a body; ours says where to go.
        app.UseStatusCodePagesWithReExecute("/not-here", createScopeForStatusCodePages: true);
        app.UseAntiforgery();
        app.MapStaticAssets();
        app.MapSound();
        DeskDocuments.Map(app);
        app.MapRazorComponents<App>().AddInteractiveServerRenderMode(o => o.ContentSecurityFrameAncestorsPolicy = null);
    }
}
