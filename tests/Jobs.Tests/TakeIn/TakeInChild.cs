using System.Diagnostics;
using System.Reflection;
using System.Runtime.CompilerServices;
using Athwart.Jobs.TakeIn;

namespace Athwart.Jobs.Tests.TakeIn;

/// <summary>This assembly started once more as a process of its own that takes a card in, to be killed.</summary>
internal static class TakeInChild
{
    private const string CardVariable = "ATHWART_TEST_TAKE_IN_CARD";
    private const string LibraryVariable = "ATHWART_TEST_TAKE_IN_LIBRARY";

    /// <summary>Starts it; it writes one line when it is about to begin and one when it is done.</summary>
    public static Process Start(TakeInRequest request)
    {
        var start = new ProcessStartInfo("dotnet") { UseShellExecute = false, RedirectStandardOutput = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(Assembly.GetExecutingAssembly().Location);
        start.Environment[CardVariable] = request.Sources[0];
        start.Environment[LibraryVariable] = request.LibraryFolder;
        return Process.Start(start) ?? throw new InvalidOperationException("dotnet did not start");
    }

#pragma warning disable CA2255 // Runs before the entry point that the test runner generates, which is what is wanted here.
    [ModuleInitializer]
#pragma warning restore CA2255
    internal static void TakeInAndEndWhenChild()
    {
        if (Environment.GetEnvironmentVariable(CardVariable) is not { Length: > 0 } card)
            return;
        Console.WriteLine("begin");
        var report = CardFixture.Run(CardFixture.RequestFor(card, Environment.GetEnvironmentVariable(LibraryVariable)!));
        Console.WriteLine(report.Complete ? "complete" : "not complete");
        Environment.Exit(0);
    }
}
