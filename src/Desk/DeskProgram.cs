using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Athwart.Desk.Safety;
using Athwart.Desk.Work;

namespace Athwart.Desk;

/// <summary>Starts the desk, says where it is, opens the browser, and waits for the end.</summary>
internal static class DeskProgram
{
    /// <summary>Done.</summary>
    private const int Done = 0;

    /// <summary>The command was written wrong, or the port is taken; the same number as the command line's.</summary>
    private const int WrongUse = 2;

    /// <summary>Runs until Ctrl-C.</summary>
    public static async Task<int> RunAsync(string[] arguments, TextWriter output, TextWriter error)
    {
        if (arguments is ["--help"] or ["-h"])
        {
            await output.WriteLineAsync("athwart-desk [--library DIR] [--card-folder DIR]... [--deliveries DIR] [--port N] [--listen ADDRESS] [--print-link]");
            return Done;
        }

        try
        {
            var options = DeskOptions.Parse(arguments);
            HeadStart.Begin(options);
            await using var app = await StartAsync(options);
            var entry = app.Services.GetRequiredService<EntryTokens>();
            var link = DeskAddress.LinkFor(options, app, entry.New());
            if (!options.IsThisMachineOnly)
                await error.WriteLineAsync($"Warning: the desk listens on {options.Address}. Everybody on that network who has the link can see, change and deliver what is in the library, and the traffic is not encrypted.");
            await output.WriteLineAsync($"The desk is open for the library '{options.Library}':");
            await output.WriteLineAsync("  " + link);
            await output.WriteLineAsync("The link works once. Ctrl-C ends the desk.");
            if (!options.PrintLink)
                Browse(link, error);
            await app.WaitForShutdownAsync();
            return Done;
        }
        catch (DeskException e)
        {
            await error.WriteLineAsync(e.Message);
            return WrongUse;
        }
    }

    // With no port named, the usual one is wished for, and any other will do.
    private static async Task<WebApplication> StartAsync(DeskOptions options)
    {
        var port = options.Port ?? (IsFree(options.Address, DeskOptions.UsualPort) ? DeskOptions.UsualPort : 0);
        var app = DeskHost.Create(options with { Port = port });
        try
        {
            await app.StartAsync();
            return app;
        }
        catch (IOException e)
        {
            await app.DisposeAsync();
            throw new DeskException($"The desk cannot listen on {options.Address}, port {port}: {e.Message}", "Name another --port, or leave it out.");
        }
    }

    private static bool IsFree(IPAddress address, int port)
    {
        try
        {
            using var listener = new TcpListener(address, port);
            listener.Start();
            return true;
        }
        catch (SocketException)
        {
            return false;
        }
    }

    // No browser is no fault: the link stands on the screen.
    private static void Browse(string link, TextWriter error)
    {
        try
        {
            using var started = Process.Start(OperatingSystem.IsLinux()
                ? new ProcessStartInfo("xdg-open", link) { UseShellExecute = false, RedirectStandardError = true, RedirectStandardOutput = true }
                : new ProcessStartInfo(link) { UseShellExecute = true });
        }
        catch (Exception e) when (e is System.ComponentModel.Win32Exception or FileNotFoundException)
        {
            error.WriteLine("No browser could be opened here; open the link yourself.");
        }
    }
}
