using System.Diagnostics;
using System.Reflection;
using System.Runtime.CompilerServices;
using Athwart.Jobs.Deliver;

namespace Athwart.Jobs.Tests.Deliver;

/// <summary>This assembly started once more as a process of its own that delivers, to be killed.</summary>
internal static class DeliverChild
{
    private const string LibraryVariable = "ATHWART_TEST_DELIVER_LIBRARY";
    private const string FolderVariable = "ATHWART_TEST_DELIVER_FOLDER";

    /// <summary>Starts it; it writes one line when it is about to begin and one when it is done.</summary>
    public static Process Start(DeliverRequest request)
    {
        var start = new ProcessStartInfo("dotnet") { UseShellExecute = false, RedirectStandardOutput = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(Assembly.GetExecutingAssembly().Location);
        start.Environment[LibraryVariable] = request.Library;
        start.Environment[FolderVariable] = request.Folder;
        return Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start");
    }

#pragma warning disable CA2255 // Runs before the entry point that the test runner generates, which is what is wanted here.
    [ModuleInitializer]
#pragma warning restore CA2255
    internal static void DeliverAndEndWhenChild()
    {
        if (Environment.GetEnvironmentVariable(LibraryVariable) is not { Length: > 0 } library)
            return;
        Console.WriteLine("begin");
        new DeliverJob().Run(SmallSession.RequestFor(library, Environment.GetEnvironmentVariable(FolderVariable)!), null, CancellationToken.None);
        Console.WriteLine("complete");
        Environment.Exit(0);
    }
}
