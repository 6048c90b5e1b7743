namespace Athwart.Desk.Safety;

/// <summary>What the browser may do with an answer of the desk: run and show only what the desk itself serves.</summary>
internal sealed class SafetyHeaders(RequestDelegate next)
{
    /// <summary>The policy of every page: no inline script or style, nothing from elsewhere, no frame around us.</summary>
    public const string Policy =
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; media-src 'self' blob:; connect-src 'self'; "
        + "worker-src 'self'; frame-src 'self'; manifest-src 'self'; base-uri 'self'; form-action 'self'; frame-ancestors 'none'; object-src 'none'";

    public Task InvokeAsync(HttpContext context)
    {
        var headers = context.Response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "no-referrer";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Cross-Origin-Resource-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "microphone=(self), camera=(), geolocation=(), usb=(), payment=()";
        return next(context);
    }
}
