using System.Diagnostics;
using Athwart.Tests.Shared;

namespace Athwart.Cli.Tests;

public sealed class FailureTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    [Fact]
    public void AFaultOfTheProgram_ExitsWith70_AndAsksForAReport()
    {
        using StringWriter error = new();
        var code = Failures.Run(new Screen(TextWriter.Null, error, interactive: false), () => throw new InvalidOperationException("the gate is stuck"));
        Assert.Equal(70, code);
        Assert.Contains("the gate is stuck", error.ToString(), StringComparison.Ordinal);
        Assert.Contains("report", error.ToString(), StringComparison.Ordinal);
    }

    // Two gibibytes of a sparse file take seconds to decode, so that the signal comes in the midst of it.
    [Fact]
    public async Task CtrlC_InTheMidstOfADecode_ExitsWith130_AndLeavesNoHalfFile()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "sends an interrupt signal as a terminal does on Linux");
        RawPairs.Write(_folder.File("long.wav"));
        Stretch(_folder.File("long.wav"), 2L << 30);
        using var process = Start("decode", _folder.File("long.wav"), _folder.File("out.wav"), "--threads", "1");
        while (!process.HasExited && Directory.GetFiles(_folder.Path).Length == 1)
            await Task.Delay(5, TestContext.Current.CancellationToken);
        ReferenceProgram.Run("kill", "-INT", process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture));
        var said = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(130, process.ExitCode);
        Assert.Contains("Cancelled", said, StringComparison.Ordinal);
        Assert.Equal("long.wav", Path.GetFileName(Assert.Single(Directory.GetFiles(_folder.Path))));
    }

    public void Dispose() => _folder.Dispose();

    private static Process Start(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet") { UseShellExecute = false, RedirectStandardError = true, RedirectStandardOutput = true };
        start.ArgumentList.Add("exec");
        start.ArgumentList.Add(typeof(CommandTree).Assembly.Location);
        foreach (var argument in arguments)
            start.ArgumentList.Add(argument);
        return Process.Start(start)!;
    }

    // Makes the data chunk, the last one, as long as said, with a hole in place of samples.
    private static void Stretch(string path, long dataBytes)
    {
        dataBytes -= dataBytes % 6;
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        var head = new byte[4096];
        file.ReadExactly(head);
        var data = head.AsSpan().IndexOf("data"u8);
        Span<byte> size = stackalloc byte[4];
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32LittleEndian(size, (uint)dataBytes);
        file.Position = data + 4;
        file.Write(size);
        System.Buffers.Binary.BinaryPrimitives.WriteUInt32LittleEndian(size, (uint)(data + dataBytes));
        file.Position = 4;
        file.Write(size);
        file.SetLength(data + 8 + dataBytes);
    }
}
