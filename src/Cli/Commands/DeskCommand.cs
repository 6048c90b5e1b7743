using System.CommandLine;
using System.Diagnostics;
using Athwart.Jobs;

namespace Athwart.Cli.Commands;

/// <summary><c>desk</c>: starts the desk, the local web app, that lies beside this program.</summary>
internal static class DeskCommand
{
    private static readonly TimeSpan Goodbye = TimeSpan.FromSeconds(4);

    public static Command Create(Screen screen)
    {
        var library = new Option<string?>("--library") { Description = "The library's folder, made by the first take-in; the folder one stands in, or 'library' in it, unless said.", HelpName = "DIR" };
        var cards = new Option<string[]>("--card-folder") { Description = "A folder in which the desk may look for cards, beside those that the system mounts.", HelpName = "DIR" };
        var deliveries = new Option<string?>("--deliveries") { Description = "Where deliveries are written; 'deliveries' beside the library unless said.", HelpName = "DIR" };
        var port = new Option<int?>("--port") { Description = "The port to listen on; 4786, or a free one, unless said.", HelpName = "N" };
        var listen = new Option<string?>("--listen") { Description = "The address to listen on; 127.0.0.1 unless said, so that nobody else can reach the desk.", HelpName = "ADDRESS" };
        var print = new Option<bool>("--print-link") { Description = "Only print the link; open no browser." };
        var command = new ExampledCommand(
            "desk",
            "Open the desk: the whole day in the browser, served by this machine to itself. The link works once; Ctrl-C ends the desk.",
            "athwart desk --library lib",
            "athwart desk --library lib --card-folder /media/card --print-link")
        { library, cards, deliveries, port, listen, print };
        command.SetAction((parsed, cancellation) => Task.FromResult(Failures.Run(screen, () =>
        {
            List<string> arguments = [];
            Add(arguments, "--library", parsed.GetValue(library));
            foreach (var card in parsed.GetValue(cards) ?? [])
                Add(arguments, "--card-folder", card);
            Add(arguments, "--deliveries", parsed.GetValue(deliveries));
            Add(arguments, "--port", parsed.GetValue(port)?.ToString(System.Globalization.CultureInfo.InvariantCulture));
            Add(arguments, "--listen", parsed.GetValue(listen));
            if (parsed.GetValue(print))
                arguments.Add("--print-link");
            return RunAsync(Find(AppContext.BaseDirectory), arguments, cancellation).GetAwaiter().GetResult();
        })));
        return command;
    }

    /// <summary>The desk program: beside this one, in a folder 'desk' beside it, or where the sources build it.</summary>
    /// <exception cref="JobException">It is not there.</exception>
    internal static string Find(string folder)
    {
        var name = OperatingSystem.IsWindows() ? "athwart-desk.exe" : "athwart-desk";
        var output = new DirectoryInfo(Path.TrimEndingDirectorySeparator(folder));
        var built = Path.Combine(folder, "..", "..", "..", "..", "Desk", "bin", output.Parent?.Name ?? "", output.Name, name);
        string[] places = [Path.Combine(folder, "desk", name), Path.Combine(folder, name), Path.GetFullPath(built)];
        return places.FirstOrDefault(File.Exists)
            ?? throw new JobException(JobErrorKind.WrongUse, $"The desk program '{name}' does not lie beside this one.", $"Put its folder 'desk' into '{folder}'; from the sources, build it first: dotnet build src/Desk -c Release.");
    }

    private static void Add(List<string> arguments, string name, string? value)
    {
        if (value is not null)
            arguments.AddRange([name, value]);
    }

    // Ctrl-C reaches both programs; this one waits until the desk has closed its library.
    private static async Task<int> RunAsync(string program, List<string> arguments, CancellationToken cancellation)
    {
        using var desk = Process.Start(new ProcessStartInfo(program, arguments) { UseShellExecute = false })
            ?? throw new JobException(JobErrorKind.Storage, $"'{program}' did not start.", "It needs the .NET 10 runtime of ASP.NET Core.");
        try
        {
            await desk.WaitForExitAsync(cancellation);
        }
        catch (OperationCanceledException)
        {
            using var patience = new CancellationTokenSource(Goodbye);
            await desk.WaitForExitAsync(patience.Token).ContinueWith(static _ => { }, TaskScheduler.Default);
            if (!desk.HasExited)
                desk.Kill();
            return ExitCode.Done;
        }

        return desk.ExitCode;
    }
}
