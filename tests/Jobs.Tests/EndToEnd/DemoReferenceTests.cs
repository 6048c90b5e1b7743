using System.Globalization;
using Athwart.Tests.Shared;

namespace Athwart.Jobs.Tests.EndToEnd;

/// <summary>The delivered files read by programs that are not ours.</summary>
[Collection(DemoDayGroup.Name)]
public sealed class DemoReferenceTests(DemoDay day)
{
    [Fact]
    public void Ffprobe_ReadsEveryFile_WithOurRateChannelsAndLength()
    {
        var ffprobe = ReferenceProgram.Require("ffprobe");
        foreach (var file in Sounds())
        {
            var result = ReferenceProgram.Run(ffprobe, "-v", "error", "-show_entries", "stream=sample_rate,channels,duration_ts:format_tags=time_reference", "-of", "default=nw=1", day.Delivered(file.Path));
            Assert.Equal((0, ""), (result.ExitCode, result.Error.Trim()));
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"sample_rate={file.SampleRateHertz}\n"), result.Output, StringComparison.Ordinal);
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"channels={file.Channels}\n"), result.Output, StringComparison.Ordinal);
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"duration_ts={file.Frames}\n"), result.Output, StringComparison.Ordinal);
            Assert.Contains("time_reference=", result.Output, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Sox_ReadsEveryFile_WithOurLength()
    {
        var soxi = ReferenceProgram.Require("soxi");
        foreach (var file in Sounds())
        {
            var result = ReferenceProgram.Run(soxi, "-s", day.Delivered(file.Path));
            Assert.Equal(0, result.ExitCode);
            Assert.Equal(file.Frames!.Value.ToString(CultureInfo.InvariantCulture), result.Output.Trim());
        }
    }

    [Fact]
    public void Libsndfile_ReadsEveryFile_WithoutComplaint()
    {
        var info = ReferenceProgram.Require("sndfile-info");
        foreach (var file in Sounds())
        {
            var result = ReferenceProgram.Run(info, day.Delivered(file.Path));
            Assert.Equal(0, result.ExitCode);
            Assert.Matches(string.Create(CultureInfo.InvariantCulture, $"Frames +: {file.Frames}\n"), result.Output);
            Assert.DoesNotContain("should be", result.Output, StringComparison.OrdinalIgnoreCase);
            Assert.DoesNotContain("error", result.Output, StringComparison.OrdinalIgnoreCase);
        }
    }

    // A quarter of the files, each kind among them, keeps three processes a file within the test's time.
    private IEnumerable<Jobs.Deliver.Manifests.ManifestFile> Sounds() =>
        day.Files("stereo").Concat(day.Files("midside")).Concat(day.Files("mono")).Where((_, i) => i % 4 == 0);
}
